use grounds_schedule::*;
use std::time::Instant;
fn main() {
    for n in [1000usize, 3000] {
        for seed in [1, 2, 3] {
            let p = random::house(seed, n);
            assert!(p.faults().is_empty());
            let t = Instant::now();
            let one = solve(
                &p,
                &Effort {
                    schedules: 1,
                    ..Effort::default()
                },
            )
            .unwrap();
            let t1 = t.elapsed();
            let t = Instant::now();
            let s = solve(&p, &Effort::default()).unwrap();
            let t2 = t.elapsed();
            let t = Instant::now();
            let _ = construct(&p, &s.order).unwrap();
            let t3 = t.elapsed();
            let t = Instant::now();
            let b = verify(&p, &s.plan);
            let t4 = t.elapsed();
            let t = Instant::now();
            let e = explain_all(&p, &s.plan);
            let t5 = t.elapsed();
            let t = Instant::now();
            let c = clash(&p).unwrap();
            let t6 = t.elapsed();
            let t = Instant::now();
            let h = solve(
                &p,
                &Effort {
                    schedules: 200,
                    ..Effort::default()
                },
            )
            .unwrap();
            let t7 = t.elapsed();
            let choice = e.iter().filter(|r| r.contains(&Reason::Choice)).count();
            println!(
                "   explain {t5:?} ({choice} choices) clash {t6:?} {} bound {} solve200 {t7:?} cost {} days {}",
                c.is_some(),
                bound(&p).unwrap() / 96,
                h.cost.total() / 100,
                h.plan.finishes.iter().max().unwrap() / 96
            );
            let fin = |s: &Solved| s.plan.finishes.iter().max().unwrap() / 96;
            println!(
                "{n} seed {seed}: lags {} solve1 {t1:?} solve20 {t2:?} construct {t3:?} verify {t4:?} breaches {} | days {} -> {} cost {} -> {}",
                p.lags.len(),
                b.len(),
                fin(&one),
                fin(&s),
                one.cost.total() / 100,
                s.cost.total() / 100
            );
        }
    }
}
