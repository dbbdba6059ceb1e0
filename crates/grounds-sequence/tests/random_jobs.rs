//! Random job documents: whatever is drawn is planned without a panic, and the plan is proved or its
//! troubles are told in words.
//!
//! `JOBS=10000 cargo test --release -p grounds-sequence --test random_jobs` draws that many;
//! `SEED=42` draws one job and prints it.

#![allow(
    clippy::expect_used,
    clippy::panic,
    reason = "a job that cannot be drawn is a fault of the test"
)]

mod house;

use std::{
    collections::BTreeMap,
    sync::atomic::{AtomicU64, Ordering},
};

use grounds_model::{Job, LayerKey, Library};
use grounds_schedule::{chance::Chance, clash};
use grounds_sequence::{Cause, TaskState};
use grounds_site::{Kind, Value};
use house::{House, Planned};

/// Jobs drawn where nobody asks for more.
const FEW: u64 = 300;

#[test]
fn random_jobs_are_planned_and_proved() {
    if let Some(seed) = number("SEED") {
        let drawn = draw(seed);
        println!("{}", drawn.house.text);
        for note in &drawn.house.notes {
            println!("{} {} {}", note.at, note.about, note.kind.word());
        }
        let plan = drawn.house.planned(&drawn.now);
        println!("at {}: {}", drawn.now, plan.troubles().join(" "));
        for id in plan.outlook.between(0, i32::MAX) {
            let key = &plan.outlook.network.tasks[id.index()].key;
            println!(
                "{} – {} {key}: {}",
                plan.start(key),
                plan.finish(key),
                plan.why(key)
            );
        }
        check(&drawn);
        return;
    }
    let jobs = number("JOBS").unwrap_or(FEW);
    let next = AtomicU64::new(0);
    let (impossible, missed) = (AtomicU64::new(0), AtomicU64::new(0));
    let threads = std::thread::available_parallelism().map_or(1, usize::from);
    std::thread::scope(|scope| {
        for _ in 0..threads {
            scope.spawn(|| {
                loop {
                    let seed = next.fetch_add(1, Ordering::Relaxed);
                    if seed >= jobs {
                        return;
                    }
                    let outcome = std::panic::catch_unwind(|| check(&draw(seed)));
                    match outcome {
                        Ok(Outcome::Met) => {}
                        Ok(Outcome::Impossible) => _ = impossible.fetch_add(1, Ordering::Relaxed),
                        Ok(Outcome::Missed) => {
                            println!("SEED={seed} breaks something that is not proved impossible");
                            missed.fetch_add(1, Ordering::Relaxed);
                        }
                        Err(_) => panic!("job {seed} failed; draw it again with SEED={seed}"),
                    }
                }
            });
        }
    });
    let (impossible, missed) = (impossible.into_inner(), missed.into_inner());
    println!("{jobs} jobs, {impossible} of them impossible, {missed} more not met");
    assert!(impossible < jobs / 2, "most jobs should be possible");
    // Crews, shut floors and contradictory notes can make a job impossible without a proof by time.
    assert!(
        missed <= jobs / 50,
        "{missed} of {jobs} plans break what may not need to be broken"
    );
}

fn number(name: &str) -> Option<u64> {
    std::env::var(name).ok()?.parse().ok()
}

/// Plans a drawn job, and again after a note.
fn check(drawn: &Drawn) -> Outcome {
    let first = drawn.house.planned(&drawn.now);
    check_plan(&first);
    let noted = drawn.house.clone().noted(&drawn.now, "job", Kind::Remark);
    let second = noted.planned_after(&drawn.now, &first);
    check_plan(&second);
    assert!(
        second.outlook.breaches.len() <= first.outlook.breaches.len(),
        "a remark broke something"
    );
    let proved = clash(&first.outlook.network.problem).is_ok_and(|found| found.is_some());
    match (first.outlook.breaches.is_empty(), proved) {
        (true, _) => Outcome::Met,
        (false, true) => Outcome::Impossible,
        (false, false) => Outcome::Missed,
    }
}

/// What became of a drawn job.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Outcome {
    /// Everything is obeyed.
    Met,
    /// Something in it cannot be met, by time or for want of any way in.
    Impossible,
    /// The plan breaks something, and nothing proves that it must.
    Missed,
}

fn check_plan(plan: &Planned) {
    let file = grounds_sequence::PlanFile::of(&plan.outlook, &plan.job);
    let breaches = file.verify(&plan.outlook.network).expect("its own plan");
    assert_eq!(
        breaches, plan.outlook.breaches,
        "the file says what the plan says"
    );
    let words = plan.words();
    for breach in &breaches {
        assert_sentence(&words.breach(breach));
    }
    for id in plan.outlook.network.open() {
        let sentences = words.reasons(id);
        assert!(!sentences.is_empty(), "{} gives no reason", words.task(id));
        sentences
            .iter()
            .for_each(|sentence| assert_sentence(sentence));
    }
    for root in &plan.outlook.roots {
        let said = words.root(root);
        assert!(!said.title.trim().is_empty());
        assert_sentence(&said.detail);
        assert_sentence(&said.holds);
        assert!(!root.holds.is_empty() && root.days >= 0);
        assert!(!matches!(&root.cause, Cause::Crews(id) if !plan.job.trades.contains_key(id)));
    }
    for row in plan.outlook.starts() {
        let state = plan.outlook.network.tasks[row.id.index()].state;
        assert_eq!(row.in_hand, state == TaskState::InHand);
        assert!(row.in_hand || row.from >= plan.outlook.network.now_tick());
        let name = words.task(row.id);
        assert!(
            row.in_hand || row.from <= row.planned,
            "{name} is planned before facts allow it"
        );
    }
    assert_sentence(&words.today());
    assert_sentence(&words.forecast());
}

fn assert_sentence(text: &str) {
    let text = text.trim();
    assert!(text.ends_with(['.', '!', '?']), "{text:?} is no sentence");
    assert!(
        !text.contains("  ") && !text.contains("{}") && !text.contains(".."),
        "{text:?}"
    );
}

/// A drawn job, its notes and a moment.
struct Drawn {
    house: House,
    now: String,
}

/// Draws until the document has no fault: build-ups that name each other's layers may go in a circle.
fn draw(seed: u64) -> Drawn {
    // Neighbouring seeds give streams that overlap, so each is scattered first.
    let mut chance = Chance::new(Chance::new(seed).number());
    for _ in 0..20 {
        let text = Document::draw(&mut chance);
        match Job::from_toml(&text) {
            Ok(job) => return annotate(House::new(&text), &job, &mut chance),
            Err(faults) => {
                let told = faults.to_string();
                assert!(
                    told.contains("circle") || told.contains("longest day"),
                    "{told}\n{text}"
                );
            }
        }
    }
    panic!("no sound job among twenty");
}

/// The trades that the library asks for.
const TRADES: [&str; 11] = [
    "board",
    "electric",
    "glass",
    "joinery",
    "paint",
    "plaster",
    "plumb",
    "site",
    "stone",
    "tile",
    "timber-floor",
];

const MATERIALS: [&str; 6] = ["plaster", "paint", "tile", "timber", "finish", "membrane"];

const SPANS: [&str; 8] = [
    "30 min",
    "4 h",
    "16 h",
    "24 h",
    "3 days",
    "7 days",
    "2 working days",
    "24 counted h",
];

/// A document in the making.
struct Document<'c> {
    text: String,
    chance: &'c mut Chance,
    places: Vec<String>,
    /// References that later things may wait for.
    earlier: Vec<String>,
    build_ups: Vec<(String, &'static str)>,
}

impl<'c> Document<'c> {
    fn draw(chance: &'c mut Chance) -> String {
        let mut it = Self {
            text: String::new(),
            chance,
            places: Vec::new(),
            earlier: Vec::new(),
            build_ups: Vec::new(),
        };
        it.about();
        it.trades();
        it.own_build_ups();
        it.library_build_ups();
        it.rooms();
        it.decisions();
        it.pieces();
        it.holds();
        it.milestones();
        it.waits_and_bookings();
        it.climate();
        it.text
    }

    fn line(&mut self, line: impl AsRef<str>) {
        self.text.push_str(line.as_ref());
        self.text.push('\n');
    }

    fn pick<'a, T: ?Sized>(&mut self, from: &[&'a T]) -> &'a T {
        from[self.chance.below(from.len())]
    }

    fn span(&mut self) -> &'static str {
        self.pick(&SPANS)
    }

    fn about(&mut self) {
        let zone = self.pick(&["Europe/London", "America/New_York", "Asia/Kolkata", "UTC"]);
        self.line(format!(
            "format = 1\n[job]\nname = \"Drawn\"\nunits = \"metric\"\nzone = \"{zone}\"\n\
             begins = \"2027-03-01\"\ncalendar = \"week\"\ncost_per_day = \"100\"\n"
        ));
        let hours = self.pick(&[
            "[\"08:00-16:00\"]",
            "[\"08:00-12:00\", \"12:30-16:30\"]",
            "[\"07:15-15:45\"]",
        ]);
        self.line(format!(
            "[calendars.week]\ndays = [\"mon\", \"tue\", \"wed\", \"thu\", \"fri\"]\nhours = {hours}\n\
             closed = [{{ from = \"2027-04-02\", to = \"2027-04-05\" }}]\n"
        ));
        self.line("[calendars.thursdays]\ndays = [\"thu\"]\nhours = [\"08:00-16:00\"]\n");
        self.line(
            "[calendars.every-day]\ndays = [\"mon\", \"tue\", \"wed\", \"thu\", \"fri\", \"sat\", \"sun\"]\n\
             hours = [\"00:00-24:00\"]\n",
        );
    }

    fn trades(&mut self) {
        for trade in TRADES {
            self.line(format!("[trades.{trade}]\nname = \"Trade {trade}\""));
            if self.chance.happens(20) {
                let crews = self.chance.between(2, 3);
                self.line(format!("crews = {crews}"));
            }
            if self.chance.happens(30) {
                self.line("return_cost = \"120\"");
            }
            match self.chance.below(12) {
                0 => self.line("calendar = \"thursdays\""),
                1 => self.line("calendar = \"every-day\""),
                _ => {}
            }
        }
        self.line("[trades.inspect]\nname = \"Inspector\"\nauthority = true");
    }

    fn own_build_ups(&mut self) {
        for index in 0..self.chance.between(1, 3) {
            let key = format!("own-{index}");
            self.line(format!("[build_ups.{key}]\nname = \"Own {index}\""));
            for layer in 0..self.chance.between(1, 4) {
                self.own_layer(&key, layer);
            }
            let kind = self.pick(&["floor", "wall", "ceiling", "soffit"]);
            self.build_ups.push((key, kind));
        }
    }

    fn own_layer(&mut self, key: &str, layer: i32) {
        let (trade, material) = (self.pick(&TRADES), self.pick(&MATERIALS));
        self.line(format!(
            "[[build_ups.{key}.layers]]\nid = \"l{layer}\"\nname = \"Layer {layer}\"\n\
             material = \"{material}\"\ntrade = \"{trade}\""
        ));
        match self.chance.below(4) {
            0 => self.line("rate = \"6 m2/h\"\nset_up = \"30 min\""),
            1 => self.line("takes = \"2 working days\""),
            2 => self.line("takes = \"4 h\"\nunbroken = true"),
            _ => self.line("takes = \"75 min\""),
        }
        for wait in ["recoat", "cover"] {
            if self.chance.happens(40) {
                let span = self.span();
                self.line(format!("{wait} = \"{span}\""));
            }
        }
        if self.chance.happens(10) {
            self.line("latest_recoat = \"10 days\"");
        }
        match self.chance.below(5) {
            0 => self.line("traffic = { socks = \"8 h\", boots = \"24 h\", heavy = \"3 days\" }"),
            1 => self.line("traffic = { boots = \"24 h\", open_while_working = true }"),
            _ => {}
        }
        let flags = [
            ("dusty = true", 20),
            ("still = \"8 h\"", 20),
            ("wet = true", 20),
            ("last = true", 15),
            ("fragile = true", 10),
        ];
        for (flag, percent) in flags {
            if self.chance.happens(percent) {
                self.line(flag);
            }
        }
        if self.chance.happens(25) {
            self.line("temperature = \">= 8 C\"");
        }
        if self.chance.happens(15) {
            self.line("humidity = \"<= 70 %\"");
        }
        if self.chance.happens(15) {
            let choice = self.pick(&["any:dusty", "ceiling:paint", "wall:plaster", "any:wet"]);
            self.line(format!("after = [\"{choice}\"]"));
        }
    }

    fn library_build_ups(&mut self) {
        let kinds = [
            ("skimmed-partition", "wall"),
            ("tiled-bathroom-wall", "wall"),
            ("board-level-4", "wall"),
            ("lime-three-coat", "wall"),
            ("timber-floor-stained", "floor"),
            ("tiled-bathroom-floor", "floor"),
            ("tile-on-screed", "floor"),
            ("skimmed-ceiling", "ceiling"),
        ];
        let known = kinds
            .into_iter()
            .filter(|(key, _)| Library::starter().get(key).is_some());
        self.build_ups
            .extend(known.map(|(key, kind)| (key.to_owned(), kind)));
    }

    fn rooms(&mut self) {
        self.line("[levels.ground]\nname = \"Ground\"\nheight = \"0 m\"");
        let count = self.chance.between(1, 6);
        for index in 0..count {
            let key = format!("p{index}");
            let size = self.pick(&[
                "4 m x 3 m x 2.5 m",
                "6 m x 4 m x 2.7 m",
                "2 m x 1.5 m x 2.4 m",
            ]);
            self.line(format!(
                "[places.{key}]\nname = \"Place {index}\"\nlevel = \"ground\"\nsize = \"{size}\""
            ));
            if index == 0 {
                self.line("entrance = true");
            }
            if self.chance.happens(30) {
                let crews = self.chance.between(1, 3);
                self.line(format!("crews = {crews}"));
            }
            if self.chance.happens(40) {
                self.line("air = \"shared\"");
            }
            self.places.push(key.clone());
            self.faces(&key);
        }
        for index in 1..count {
            let from = self.chance.below(usize::try_from(index).unwrap_or(1));
            self.line(format!(
                "[passages.d{index}]\nkind = \"door\"\nbetween = [\"p{from}\", \"p{index}\"]"
            ));
        }
        if self.chance.happens(40) {
            let end = self.places[self.chance.below(self.places.len())].clone();
            self.line(format!(
                "[passages.back]\nkind = \"door\"\nbetween = [\"outside\", \"{end}\"]"
            ));
        }
    }

    fn faces(&mut self, place: &str) {
        for index in 0..self.chance.between(0, 3) {
            let (build_up, kind) = self.build_ups[self.chance.below(self.build_ups.len())].clone();
            self.line(format!(
                "[places.{place}.faces.f{index}]\nkind = \"{kind}\"\nbuild_up = \"{build_up}\"\n\
                 area = \"11 m2\"\nlength = \"12 m\""
            ));
            if self.chance.happens(15) {
                self.line("split = true");
            }
            self.earlier.push(format!("{place}.f{index}"));
        }
    }

    /// A list of at most `most` references to earlier things.
    fn some_earlier(&mut self, most: i32) -> String {
        let mut chosen = Vec::new();
        for _ in 0..self.chance.between(0, most) {
            if !self.earlier.is_empty() {
                let one = &self.earlier[self.chance.below(self.earlier.len())];
                chosen.push(format!("\"{one}\""));
            }
        }
        chosen.sort();
        chosen.dedup();
        format!("[{}]", chosen.join(", "))
    }

    fn decisions(&mut self) {
        for index in 0..self.chance.between(0, 2) {
            self.line(format!(
                "[decisions.c{index}]\nname = \"Choice {index}\"\nby = \"Owner\""
            ));
            match self.chance.below(3) {
                0 => self.line("expected = \"2027-03-20\""),
                1 => self.line("usual = \"3 working days\""),
                _ => {}
            }
            self.earlier.push(format!("c{index}"));
        }
    }

    fn pieces(&mut self) {
        for index in 0..self.chance.between(0, 5) {
            let place = self.places[self.chance.below(self.places.len())].clone();
            let (trade, after) = (self.pick(&TRADES), self.some_earlier(2));
            self.line(format!(
                "[pieces.s{index}]\nname = \"Piece {index}\"\ntrade = \"{trade}\"\nplace = \"{place}\"\n\
                 takes = \"150 min\"\nafter = {after}"
            ));
            if self.chance.happens(50) {
                let lead = self.pick(&["5 days", "10 working days", "2 / 3 / 6 weeks"]);
                self.line(format!("lead = \"{lead}\""));
            }
            if self.chance.happens(40) {
                let measured = self.some_earlier(2);
                self.line(format!("measured_after = {measured}\nmeasuring = \"1 h\""));
            }
            if self.chance.happens(20) {
                let kept = self.places[self.chance.below(self.places.len())].clone();
                self.line(format!("kept_in = \"{kept}\""));
            }
            if self.chance.happens(25) {
                let cover = self.span();
                self.line(format!("cover = \"{cover}\""));
            }
            for (flag, percent) in [
                ("fragile = true", 20),
                ("heavy = true", 20),
                ("dusty = true", 10),
            ] {
                if self.chance.happens(percent) {
                    self.line(flag);
                }
            }
            if self.chance.happens(10) {
                self.line(format!("shuts = [\"{place}\"]"));
            }
            self.earlier.push(format!("s{index}"));
        }
    }

    fn holds(&mut self) {
        for index in 0..self.chance.between(0, 3) {
            let place = self.places[self.chance.below(self.places.len())].clone();
            let (kind, after) = (
                self.pick(&["test", "authority", "own-check"]),
                self.some_earlier(2),
            );
            self.line(format!(
                "[holds.h{index}]\nname = \"Hold {index}\"\nkind = \"{kind}\"\nplace = \"{place}\"\n\
                 after = {after}\nbefore = []"
            ));
            if self.chance.happens(60) {
                self.line("by = \"inspect\"");
            }
            let choices = [
                ("takes", "1 h"),
                ("stands", "24 h"),
                ("then", "4 h"),
                ("notice", "3 working days"),
                ("put_right", "2 h"),
            ];
            for (key, span) in choices {
                if self.chance.happens(40) {
                    self.line(format!("{key} = \"{span}\""));
                }
            }
            self.earlier.push(format!("h{index}"));
        }
    }

    fn milestones(&mut self) {
        for index in 0..self.chance.between(0, 2) {
            let after = self.some_earlier(3);
            self.line(format!(
                "[milestones.m{index}]\nname = \"Milestone {index}\"\nafter = {after}"
            ));
            if self.chance.happens(30) {
                self.line("cured = true");
            }
            if self.chance.happens(40) {
                self.line("due = \"2027-06-30\"\ncost_per_day_late = \"50\"");
                if self.chance.happens(20) {
                    self.line("firm = true");
                }
            }
        }
    }

    fn waits_and_bookings(&mut self) {
        for _ in 0..self.chance.between(0, 2) {
            if self.earlier.len() < 2 {
                return;
            }
            // From something earlier to something later, so that no circle arises of it alone.
            let from = self.chance.below(self.earlier.len() - 1);
            let to = from + 1 + self.chance.below(self.earlier.len() - from - 1);
            let (from, to) = (self.earlier[from].clone(), self.earlier[to].clone());
            let (least, end) = (self.span(), self.pick(&["start", "finish"]));
            self.line(format!("[[waits]]\nfrom = \"{from}\"\nto = \"{to}\"\nfrom_end = \"{end}\"\nleast = \"{least}\""));
            if self.chance.happens(20) {
                self.line("most = \"120 days\"");
            }
        }
        for _ in 0..self.chance.between(0, 2) {
            let Some(work) = self
                .earlier
                .get(self.chance.below(self.earlier.len()))
                .cloned()
            else {
                return;
            };
            let day = self.chance.between(1, 28);
            let line = match self.chance.below(4) {
                0 => format!("not_before = \"2027-04-{day:02} 10:00\""),
                1 => format!("promised = \"2027-04-{day:02}\""),
                2 => format!(
                    "promised = \"2027-04-{day:02} 13:30\"\nnot_before = \"2027-04-{day:02}\""
                ),
                _ => format!("not_after = \"2027-07-{day:02}\""),
            };
            self.line(format!("[[bookings]]\nwork = \"{work}\"\n{line}"));
        }
    }

    fn climate(&mut self) {
        for _ in 0..self.chance.between(0, 2) {
            let day = self.chance.between(1, 28);
            self.line(format!("[[climate]]\nfrom = \"2027-03-{day:02}\""));
            if self.chance.happens(80) {
                self.line("until = \"2027-04-20 12:00\"");
            }
            if self.chance.happens(50) {
                self.line("daily = \"18:00-24:00\"");
            }
            let air = self.pick(&[
                "temperature = \"4 C\"",
                "humidity = \"85 %\"",
                "temperature = \"14 C\"",
            ]);
            self.line(air);
        }
    }
}

/// Notes on some of the work, many of them at odds with each other, and a moment after most of them.
fn annotate(mut house: House, job: &Job, chance: &mut Chance) -> Drawn {
    let mut by_stack: BTreeMap<(String, String), Vec<LayerKey>> = BTreeMap::new();
    for key in job.layer_keys() {
        let stack = (key.place.to_string(), key.face.to_string());
        by_stack.entry(stack).or_default().push(key);
    }
    let day = |chance: &mut Chance| {
        let (day, hour) = (chance.between(1, 28), chance.between(7, 17));
        format!("2027-03-{day:02} {hour:02}:30")
    };
    for layers in by_stack
        .values()
        .filter(|_| chance.happens(60))
        .cloned()
        .collect::<Vec<_>>()
    {
        for layer in layers.iter().take(chance.below(layers.len() + 1)) {
            let at = day(chance);
            house = house.noted(&at, &layer.to_string(), draw_work(chance));
        }
        if chance.happens(20) {
            let at = day(chance);
            let layer = &layers[chance.below(layers.len())];
            let share = Value::Share("40 %".parse().expect("a share"));
            house = house.put(&at, &layer.to_string(), Kind::Progress, Some(share), "");
        }
    }
    for piece in job.pieces.keys() {
        for _ in 0..chance.below(4) {
            let (at, about) = (day(chance), piece.to_string());
            house = match chance.below(9) {
                0 => house.noted_for(&at, &about, Kind::Ordered, "2027-04-09"),
                1 => house.noted_for(&at, &about, Kind::Promised, "2027-03-10 09:00"),
                2 => house.noted(&at, &about, Kind::Arrived),
                3 => house.noted_words(&at, &about, Kind::Damaged, "chipped"),
                4 => house.noted(&at, &about, Kind::Done),
                5 => house.noted(&at, &about, Kind::Started),
                6 => house.noted_words(&at, &about, Kind::Problem, "no lift"),
                7 => house.noted(&at, &about, Kind::Measured),
                _ => house.noted(&at, &about, Kind::Undone),
            };
        }
    }
    for hold in job.holds.keys() {
        for _ in 0..chance.below(3) {
            let (at, about) = (day(chance), hold.to_string());
            house = match chance.below(6) {
                0 => house.noted_for(&at, &about, Kind::Ordered, "2027-04-07 10:00"),
                1 => house.noted(&at, &about, Kind::Passed),
                2 => house.noted_words(&at, &about, Kind::Failed, "leaks"),
                3 => house.noted(&at, &about, Kind::Started),
                4 => house.noted(&at, &about, Kind::Cleared),
                _ => house.noted_for(&at, &about, Kind::Problem, "2027-04-15"),
            };
        }
    }
    for decision in job
        .decisions
        .keys()
        .filter(|_| chance.happens(40))
        .cloned()
        .collect::<Vec<_>>()
    {
        let at = day(chance);
        house = house.noted(&at, decision.as_str(), Kind::Decided);
    }
    if chance.happens(20) {
        let (at, about) = (day(chance), TRADES[chance.below(TRADES.len())]);
        house = house.noted_words(&at, about, Kind::Problem, "Van broken down");
    }
    let passages: Vec<String> = job.passages.keys().map(ToString::to_string).collect();
    if !passages.is_empty() && chance.happens(15) {
        let at = day(chance);
        house = house.noted_for(
            &at,
            &passages[chance.below(passages.len())],
            Kind::Problem,
            "2027-04-10",
        );
    }
    Drawn {
        house,
        now: day(chance),
    }
}

fn draw_work(chance: &mut Chance) -> Kind {
    match chance.below(8) {
        0 => Kind::Started,
        1 => Kind::Undone,
        2 => Kind::Damaged,
        _ => Kind::Done,
    }
}
