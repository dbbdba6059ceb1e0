use grounds_schedule::*;
fn main() {
    let first = |p: &Problem| {
        construct(p, &[])
            .ok()
            .filter(|plan| verify(p, plan).is_empty())
    };
    let n: u32 = std::env::args()
        .nth(1)
        .and_then(|s| s.parse().ok())
        .unwrap_or(40);
    let mut bad = 0;
    for seed in 0..3000 {
        let Some((problem, _)) = random::buildable(seed, first) else {
            continue;
        };
        let s = solve(
            &problem,
            &Effort {
                schedules: n,
                ..Effort::default()
            },
        )
        .unwrap();
        if !s.breaches.is_empty() {
            bad += 1;
            if bad < 25 {
                println!("{seed} {:?}", s.breaches);
            }
        }
    }
    println!("{bad} bad");
}
