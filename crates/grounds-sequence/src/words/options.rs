//! Options in words: what is done, what it wins, what it costs, who must hear of it.

use grounds_model::{Id, Job};
use grounds_schedule::{DAY, Reason, Tick};
use jiff::civil::Date;

use super::{Words, count, effect::days_words, join, lower_first};
use crate::{
    options::{
        Awaited, CostKind, CostPart, ExtraHours, ExtraKind, Means, Offer, Sooner, Split, WinBack,
    },
    task::Work,
};

/// Days that are named one by one; more are told by the first, the last and how many.
const NAMED_DAYS: usize = 4;

/// So many of the longest waits are told where nothing helps.
const LONGEST_WAITS: usize = 3;

/// An option in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OfferWords {
    /// What is done: `Stair glass on site by Tue 7 September instead of Fri 17 September`.
    pub title: String,
    /// What it wins: `“Handed over” comes four days sooner, Fri 10 September instead of …`
    pub gain: String,
    /// What it costs, and what it saves.
    pub cost: String,
    /// What it does to other dates.
    pub others: Vec<String>,
    /// Who must hear of it, with how to reach them.
    pub hear: Vec<String>,
    /// What to mind.
    pub cautions: Vec<String>,
    /// How it is put into effect: the note or the lines of the job, one for each means.
    pub enter: Vec<String>,
}

/// All options for a date in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WinBackWords {
    /// `What would bring the last finish, Fri 24 September, forward`.
    pub title: String,
    /// What the date hangs on, as the first few things of it that could be otherwise.
    pub hangs_on: Vec<String>,
    /// Why nothing helps, where nothing does.
    pub nothing: Vec<String>,
    /// What is never offered, and why.
    pub left_out: Vec<String>,
}

impl Words<'_> {
    /// An option in words.
    #[must_use]
    pub fn offer(&self, win: &WinBack, offer: &Offer) -> OfferWords {
        let beside = win.aim.milestone();
        let titles: Vec<String> = offer.means.iter().map(|means| self.means(means)).collect();
        let gain = offer
            .effect
            .reached
            .iter()
            .find(|reached| reached.milestone.as_ref() == beside)
            .and_then(|reached| self.reached(reached));
        let gain: Vec<String> = gain.into_iter().chain(self.steps(offer)).collect();
        OfferWords {
            title: together(&titles),
            gain: gain.join(" "),
            cost: self.offer_cost(offer),
            others: self.others_reached(&offer.effect, beside),
            hear: self.hear(offer),
            cautions: self.cautions(offer),
            enter: offer.means.iter().map(|means| self.enter(means)).collect(),
        }
    }

    /// What later days than the one asked for still win.
    fn steps(&self, offer: &Offer) -> Option<String> {
        let (_, later) = offer.steps.split_last()?;
        let told: Vec<String> = later
            .iter()
            .rev()
            .take(NAMED_DAYS)
            .map(|step| {
                format!(
                    "by {} {}",
                    self.day(step.by),
                    days_words(step.won.unsigned_abs())
                )
            })
            .collect();
        (!told.is_empty()).then(|| format!("Later still helps: {}.", told.join(", ")))
    }

    /// All options for a date in words, beside the options themselves.
    #[must_use]
    pub fn win_back(&self, win: &WinBack) -> WinBackWords {
        let name = self.reached_name(win.aim.milestone());
        WinBackWords {
            title: format!(
                "What would bring {name} forward from {}",
                self.day(win.before)
            ),
            hangs_on: self.hangs_on(win),
            nothing: if win.singles.is_empty() && win.pairs.is_empty() {
                self.nothing_helps(win)
            } else {
                Vec::new()
            },
            left_out: self.left_out(win),
        }
    }

    /// What is done, as a title.
    #[must_use]
    pub fn means(&self, means: &Means) -> String {
        match means {
            Means::Hours(extra) => self.hours_title(extra),
            Means::Crew(trade) => self.crew_title(trade),
            Means::Sooner(sooner) => self.sooner_title(sooner),
            Means::Boards(boards) => format!(
                "Boards over the {} floor as soon as it bears socks",
                lower_first(&self.place(&boards.place))
            ),
            Means::Split(split) => self.split_title(split),
            Means::Order => "The same work in another order".to_owned(),
        }
    }

    fn hours_title(&self, extra: &ExtraHours) -> String {
        let days: Vec<Date> = extra.days.iter().map(|day| day.on).collect();
        let trade = self.trade(&extra.trade);
        match extra.kind {
            ExtraKind::LongerDays => {
                format!(
                    "{}: longer days, to {}, {}",
                    trade,
                    latest(extra),
                    self.days(&days)
                )
            }
            ExtraKind::Saturdays => format!("{}: work {}", trade, self.days(&days)),
            ExtraKind::Visits => format!("{}: come {} as well", trade, self.days(&days)),
        }
    }

    fn crew_title(&self, trade: &Id) -> String {
        let crews = self.job.trades.get(trade).map_or(1, |trade| trade.crews);
        let number = match crews {
            1 => "A second".to_owned(),
            2 => "A third".to_owned(),
            3 => "A fourth".to_owned(),
            _ => "One more".to_owned(),
        };
        format!("{number} {} crew", lower_first(&self.trade(trade)))
    }

    fn sooner_title(&self, sooner: &Sooner) -> String {
        let by = self.day(sooner.by);
        let was = self.day(sooner.was);
        let network = &self.outlook.network;
        let name = network
            .find(&sooner.key)
            .map_or_else(|| sooner.key.clone(), |id| self.at(id).name.clone());
        match &sooner.what {
            Awaited::Delivery(_) => format!("{name} on site by {by} instead of {was}"),
            Awaited::Slot(_) => format!("{name}: a slot on {by} instead of {was}"),
            Awaited::Answer(_) => format!("{name}: an answer by {by} instead of {was}"),
            Awaited::Booking(index) => {
                let booking = self.job.bookings.get(*index);
                let why = booking.and_then(|booking| booking.why.clone());
                format!("{}: {by} instead of {was}", why.unwrap_or(name))
            }
        }
    }

    fn split_title(&self, split: &Split) -> String {
        let kind = match split.kind {
            grounds_model::FaceKind::Floor => "floors",
            grounds_model::FaceKind::Wall => "walls",
            grounds_model::FaceKind::Ceiling => "ceilings",
            grounds_model::FaceKind::Soffit => "soffits",
        };
        format!(
            "The {kind} of the {} one after another, each handed on when it is done",
            lower_first(&self.place(&split.place))
        )
    }

    /// Days in words: each where they are few, else how many and from when to when.
    fn days(&self, days: &[Date]) -> String {
        let clock = &self.outlook.network.clock;
        let word = |day: &Date| self.day(clock.midnight(*day));
        if days.len() <= NAMED_DAYS {
            return join(&days.iter().map(word).collect::<Vec<_>>());
        }
        let (Some(first), Some(last)) = (days.first(), days.last()) else {
            return String::new();
        };
        format!(
            "{} days from {} to {}",
            count(days.len()),
            word(first),
            word(last)
        )
    }

    fn offer_cost(&self, offer: &Offer) -> String {
        let mut parts: Vec<String> = offer
            .costs
            .iter()
            .filter_map(|part| self.cost_part(part))
            .collect();
        parts.push(self.verdict(offer));
        parts.join(" ")
    }

    /// What all of it comes to; where a price is missing, what it may be.
    fn verdict(&self, offer: &Offer) -> String {
        if !offer.needs_price() {
            return self.balance(offer.net_cents());
        }
        match offer.worth_cents() {
            0 => "Ask for a price. The days won save the job no money by themselves.".to_owned(),
            worth => format!(
                "Ask for a price: worth up to {}, {} for each day won.",
                self.money(worth),
                self.money(worth / i64::from(offer.won.max(1)))
            ),
        }
    }

    fn cost_part(&self, part: &CostPart) -> Option<String> {
        let cents = part.cents.filter(|cents| *cents != 0);
        let Some(cents) = cents else {
            let unknown = match part.what {
                CostKind::Premium => "The job has no rate for them, so the premium is not known.",
                CostKind::Mobilising | CostKind::Visits => {
                    "The job does not say what a visit costs."
                }
                CostKind::SettingUp | CostKind::Expediting | CostKind::Boarding => return None,
            };
            return part.cents.is_none().then(|| unknown.to_owned());
        };
        let sum = self.money(cents);
        Some(match part.what {
            CostKind::Premium => format!("About {sum} in premium pay."),
            CostKind::Mobilising => format!("{sum} for the crew to come."),
            CostKind::Visits => format!("{sum} for coming."),
            CostKind::SettingUp => format!("About {sum} for setting up again."),
            CostKind::Expediting => format!("{sum} to its maker."),
            CostKind::Boarding => format!("{sum} for boards."),
        })
    }

    /// Who must hear of it: trades with how to reach them, and who decides.
    fn hear(&self, offer: &Offer) -> Vec<String> {
        let deciders = offer.means.iter().filter_map(|means| match means {
            Means::Sooner(Sooner {
                what: Awaited::Answer(id),
                ..
            }) => Some(self.job.decisions.get(id)?.by.clone()),
            _ => None,
        });
        let trades = offer.affected.iter().map(|id| self.contact(id));
        deciders.chain(trades).collect()
    }

    fn contact(&self, trade: &Id) -> String {
        let name = self.trade(trade);
        let contact = self
            .job
            .trades
            .get(trade)
            .and_then(|trade| trade.contact.as_ref());
        let Some(contact) = contact else { return name };
        let how: Vec<&str> = [&contact.name, &contact.phone, &contact.email]
            .into_iter()
            .flatten()
            .map(String::as_str)
            .collect();
        match how.as_slice() {
            [] => name,
            how => format!("{name}: {}", how.join(", ")),
        }
    }

    fn cautions(&self, offer: &Offer) -> Vec<String> {
        let mut all: Vec<String> = offer
            .means
            .iter()
            .filter_map(caution)
            .map(str::to_owned)
            .collect();
        if offer.effect.reached.iter().any(|reached| reached.days < 0) {
            all.push("Another date comes later by it: see above.".to_owned());
        }
        all.dedup();
        all
    }

    fn enter(&self, means: &Means) -> String {
        let date = |tick: Tick| self.outlook.network.clock.day(tick).to_string();
        match means {
            Means::Hours(extra) => hours_lines(self.job, extra),
            Means::Crew(trade) => {
                let crews = self.job.trades.get(trade).map_or(1, |trade| trade.crews) + 1;
                format!("In the job, under [trades.{trade}]: crews = {crews}")
            }
            Means::Sooner(sooner) => match &sooner.what {
                Awaited::Delivery(id) | Awaited::Slot(id) | Awaited::Answer(id) => format!(
                    "Once it is agreed, a note: {id} promised for {}",
                    date(sooner.by)
                ),
                Awaited::Booking(_) => {
                    format!(
                        "In the job, in that booking: not_before = \"{}\"",
                        date(sooner.by)
                    )
                }
            },
            Means::Boards(_) => "In the job, in the layer's traffic: boots as long as socks, once \
                                 the maker allows it"
                .to_owned(),
            Means::Split(split) => {
                let faces: Vec<String> = split
                    .faces
                    .iter()
                    .map(|face| format!("[places.{}.faces.{face}]", split.place))
                    .collect();
                format!("In the job, under {}: split = true", join(&faces))
            }
            Means::Order => "Choose it, and the plan keeps to this order.".to_owned(),
        }
    }

    fn hangs_on(&self, win: &WinBack) -> Vec<String> {
        let last = win.chain.iter().rev();
        last.filter(|id| !matches!(self.at(**id).work, Work::Reach(_)))
            .take(3)
            .map(|id| {
                let reasons = self.reasons(*id);
                let why = reasons.first().cloned().unwrap_or_default();
                format!(
                    "{}, {}. {why}",
                    self.task(*id),
                    self.when(self.outlook.plan.starts[id.index()])
                )
            })
            .collect()
    }

    /// That nothing tried wins a day, and what stands against it.
    fn nothing_helps(&self, win: &WinBack) -> Vec<String> {
        let mut said = Vec::new();
        let same_day = self.day(win.bound) == self.day(win.before);
        if same_day {
            said.push(format!(
                "No order of work reaches it before {}: it hangs on waits and dates, not on hands.",
                self.day(win.bound)
            ));
        } else {
            said.push("Nothing that was tried wins a whole day.".to_owned());
        }
        said.extend(self.long_waits(win));
        said
    }

    /// The longest waits that the date hangs on: nobody's hands make them shorter.
    fn long_waits(&self, win: &WinBack) -> Vec<String> {
        let network = &self.outlook.network;
        let mut waits: Vec<(Tick, String)> = Vec::new();
        for &id in &win.chain {
            for reason in &self.outlook.reasons[id.index()] {
                let Reason::Lag(lag) = reason else { continue };
                let wait = network.problem.lags[lag.index()].min.unwrap_or(0);
                if wait >= DAY {
                    let name = self.task(id);
                    waits.push((
                        wait,
                        format!("{name}: {}", lower_first(&self.reason(id, reason))),
                    ));
                }
            }
        }
        waits.sort_by(|a, b| b.cmp(a));
        waits.dedup();
        waits
            .into_iter()
            .take(LONGEST_WAITS)
            .map(|(_, said)| said)
            .collect()
    }

    fn left_out(&self, win: &WinBack) -> Vec<String> {
        let dries = win
            .chain
            .iter()
            .any(|id| matches!(self.at(*id).work, Work::Layer(_)));
        let mut said = Vec::new();
        if dries {
            said.push(
                "Drying in less time than a layer says is not offered. Warm, dry, moving air within \
                 its limits may help: ask its maker, and measure before you cover."
                    .to_owned(),
            );
        }
        let held = win
            .chain
            .iter()
            .any(|id| matches!(self.at(*id).work, Work::Pass(_)));
        if held {
            said.push("No test or inspection is passed over.".to_owned());
        }
        said
    }
}

/// Several titles as one.
fn together(titles: &[String]) -> String {
    match titles {
        [] => String::new(),
        [one] => one.clone(),
        [first, rest @ ..] => {
            let rest: Vec<String> = rest.iter().map(|title| lower_first(title)).collect();
            format!("{first}; and {}", rest.join("; and "))
        }
    }
}

fn caution(means: &Means) -> Option<&'static str> {
    Some(match means {
        Means::Hours(extra) => match extra.kind {
            ExtraKind::LongerDays => {
                "Long days tire people, and tired people get hurt and make faults. Mind the law on \
                 hours and rest, and the local rules on noise."
            }
            ExtraKind::Saturdays => {
                "Mind the law on hours and rest, and the local rules on noise and site hours. \
                 Somebody must open, supervise and lock up."
            }
            ExtraKind::Visits => return None,
        },
        Means::Crew(_) => {
            "They need room, light, materials and somebody to show them round; new hands are slower \
             at first."
        }
        Means::Sooner(sooner) => match sooner.what {
            Awaited::Delivery(_) => "Have the new date in writing before you move the others.",
            Awaited::Slot(_) => "The inspector decides. Nothing is covered before it has passed.",
            Awaited::Answer(_) => return None,
            Awaited::Booking(_) => "Ask whoever gave that date first.",
        },
        Means::Boards(_) => {
            "Only if the maker of the coating allows it to be covered so soon: boards can mark it \
             and hold damp in. They must lie flat, not slip and leave no step to trip on."
        }
        Means::Split(_) => "A coat shows where it was stopped: stop at a corner or a joint.",
        Means::Order => return None,
    })
}

/// The latest hour of extra days.
fn latest(extra: &ExtraHours) -> String {
    let until = extra
        .days
        .iter()
        .flat_map(|day| &day.hours)
        .map(|hours| hours.until)
        .max();
    until.map_or_else(String::new, |until| until.to_string())
}

/// The lines of the job that give a trade its extra hours.
fn hours_lines(job: &Job, extra: &ExtraHours) -> String {
    let own = job
        .trades
        .get(&extra.trade)
        .and_then(|trade| trade.calendar.as_ref());
    let key = own.unwrap_or(&job.job.calendar);
    let shared = own.is_none()
        || job
            .trades
            .values()
            .filter(|trade| trade.calendar.as_ref() == Some(key))
            .count()
            > 1
        || *key == job.job.calendar;
    let entries: Vec<String> = extra
        .days
        .iter()
        .map(|day| {
            let hours: Vec<String> = day.hours.iter().map(|h| format!("\"{h}\"")).collect();
            format!("{{ on = \"{}\", hours = [{}] }}", day.on, hours.join(", "))
        })
        .collect();
    let entries = entries.join(", ");
    if shared {
        return format!(
            "In the job, give {} a calendar of its own, a copy of [calendars.{key}], and \
             add to its extra days: {entries}",
            extra.trade
        );
    }
    format!("In the job, under [calendars.{key}], add to its extra days: {entries}")
}
