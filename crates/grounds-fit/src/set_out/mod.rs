//! What to set by: the values of open settings that leave the tightest need the most room.
//!
//! The margin of a need is the room that is left at its nearer limit. The least margin over all
//! needs is made as large as it can be (a linear program), then the least of those that can still
//! gain, and so on, so that no need pays for another that has no use of it: the max-min fair choice
//! \[published: lexicographic max-min programs\]. Where several choices do equally well, the settings
//! stay near the middle of their ranges (a least squares program). Solved by the interior point
//! library `clarabel`; of all best answers its duals tell which needs are tight in every one
//! (strict complementarity, Goldman and Tucker 1956 \[published\]).

mod clash;
mod fair;
mod program;
mod tape;

use thiserror::Error;

use crate::check::{self, Unsound};
use crate::net::{LinkId, LinkKind, NeedId, Net};
use crate::network::{blocks::Leg, estimate::Estimate, joined::Joined, select};
use crate::prior::Worst;
use program::{Program, Row};

/// How room is measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Measure {
    /// In millimetres that are left in the worst case, before readings. For few links and one-off
    /// work.
    WorstCase,
    /// In spreads between the mean and the nearer limit, readings weighed in: 2 leaves 98 of 100
    /// cases on each side, 3 all but about one in a thousand.
    Spreads,
}

/// No spread counts as less than this, mm: nothing in a house is known better.
pub const LEAST_SPREAD: f64 = 1e-3;

/// Margins above this count as met, in millimetres or spreads: the solver is not truer.
pub const SLACK: f64 = 1e-6;

/// What to set by.
#[derive(Clone, Debug, PartialEq)]
pub struct SetOuts {
    /// Every open setting that decides where its points are; not those whose points are joined
    /// otherwise.
    pub settings: Vec<Setting>,
    /// The margin of each need, in the net's order; none where it has no limits or no answer.
    pub margins: Vec<Option<Margin>>,
    /// Needs that cannot all be met, whatever is set. The settings are then the best compromise.
    pub clashes: Vec<Clash>,
}

/// What to set one link by, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Setting {
    /// The link.
    pub link: LinkId,
    /// The best value.
    pub exact: f64,
    /// The best value that the tape shows; the exact one where no mark lies in the range.
    pub value: f64,
}

/// The room of one need, in millimetres or spreads as asked; below zero where it is not met.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Margin {
    /// With the best values.
    pub exact: f64,
    /// With the values that the tape shows.
    pub rounded: f64,
}

/// Needs that cannot all be met; without any one of them the others can.
#[derive(Clone, Debug, PartialEq)]
pub struct Clash {
    /// The needs.
    pub needs: Vec<NeedId>,
    /// Settings whose range stands in the way as well.
    pub settings: Vec<LinkId>,
    /// The shortest that the worst of them must come, in millimetres or spreads, above zero.
    pub short: f64,
}

/// Why nothing could be set out.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum SetOutFault {
    /// The net has faults.
    #[error(transparent)]
    Unsound(#[from] Unsound),
    /// The step of the tape is not a length.
    #[error("a tape cannot show steps of {0} mm; give the finest mark, such as 1 or 1.5875")]
    Tape(f64),
}

/// What to set open settings by, on a tape whose finest marks are `tape` millimetres apart (1.5875 is
/// a sixteenth of an inch). Settings with a chosen value stay as they are.
///
/// # Errors
/// When the net is unsound, or the step of the tape is not a length above zero.
///
/// ```
/// use grounds_fit::net::{Link, LinkKind, Need, Net, PointId, Shape};
/// use grounds_fit::set_out::{Measure, set_outs};
/// // A box is set from the stud; board and skim come to 15.5 ± 1.5; it may stand 0 to 5 proud.
/// let net = Net {
///     points: 3,
///     links: vec![
///         Link {
///             from: PointId(0),
///             to: PointId(1),
///             kind: LinkKind::Built { nominal: 15.5, minus: 1.5, plus: 1.5, shape: Shape::Normal },
///         },
///         Link {
///             from: PointId(0),
///             to: PointId(2),
///             kind: LinkKind::Set {
///                 low: 0.0,
///                 high: 40.0,
///                 chosen: None,
///                 within: 0.5,
///                 shape: Shape::Normal,
///             },
///         },
///     ],
///     needs: vec![Need { from: PointId(1), to: PointId(2), least: Some(0.0), most: Some(5.0) }],
/// };
/// let out = set_outs(&net, Measure::WorstCase, 1.0)?;
/// assert_eq!(out.settings[0].value, 18.0);
/// assert!(out.clashes.is_empty());
/// // 2.5 in the middle, less 2 for layers and hand: half a millimetre is left in the worst case.
/// assert!(out.margins[0].is_some_and(|margin| (margin.rounded - 0.5).abs() < 1e-9));
/// # Ok::<(), grounds_fit::set_out::SetOutFault>(())
/// ```
pub fn set_outs(net: &Net, measure: Measure, tape: f64) -> Result<SetOuts, SetOutFault> {
    if !tape.is_finite() || tape <= 0.0 {
        return Err(SetOutFault::Tape(tape));
    }
    check::sound(net)?;
    let links = match measure {
        Measure::WorstCase => select::before_readings(net),
        Measure::Spreads => select::with_readings(net, &[]),
    };
    let open = Open::new(net, &links);
    let estimate = Estimate::new(net, &links);
    let rows = match measure {
        Measure::WorstCase => {
            let worst = Worst::new(&estimate);
            open.rows(net, &estimate, |route| {
                let worst = worst.route(&estimate, route)?;
                Some((worst.low, worst.high, 1.0))
            })
        }
        Measure::Spreads => open.rows(net, &estimate, |route| {
            let figures = estimate.figures(route);
            let spread = figures.variance.sqrt().max(LEAST_SPREAD);
            Some((figures.mean, figures.mean, spread))
        }),
    };
    Ok(open.settle(net, rows, tape))
}

/// Settings to be chosen.
struct Open {
    links: Vec<LinkId>,
    /// Number of a link among them.
    number: Vec<Option<usize>>,
    ranges: Vec<(f64, f64)>,
}

impl Open {
    fn new(net: &Net, links: &[LinkId]) -> Self {
        let mut open = Self {
            links: Vec::new(),
            number: vec![None; net.links.len()],
            ranges: Vec::new(),
        };
        for id in links {
            if let LinkKind::Set {
                low,
                high,
                chosen: None,
                ..
            } = net.links[id.index()].kind
            {
                open.number[id.index()] = Some(open.links.len());
                open.links.push(*id);
                open.ranges.push((low, high));
            }
        }
        open
    }

    /// One row for each limit of each need: what is left to it with every setting at its middle, and
    /// what a millimetre of each setting adds. `known` gives the low and the high end of a distance,
    /// and the unit that room is counted in.
    fn rows(
        &self,
        net: &Net,
        estimate: &Estimate,
        known: impl Fn(&[Leg]) -> Option<(f64, f64, f64)>,
    ) -> Vec<Row> {
        let mut rows = Vec::new();
        for (index, need) in net.needs.iter().enumerate() {
            let Some(route) = estimate.blocks.route(need.from.index(), need.to.index()) else {
                continue;
            };
            let Some((low, high, unit)) = known(&route) else {
                continue;
            };
            let turns: Vec<(usize, f64)> = route
                .iter()
                .filter(|leg| estimate.loops[leg.block].is_none())
                .map(|leg| estimate.single(leg))
                .filter_map(|(edge, sign)| Some((self.number[edge.link.index()]?, sign)))
                .collect();
            let row = |left: f64, sign: f64| Row {
                need: index,
                left: left / unit,
                gains: turns
                    .iter()
                    .map(|(at, turn)| (*at, sign * turn / unit))
                    .collect(),
            };
            rows.extend(need.least.map(|least| row(low - least, 1.0)));
            rows.extend(need.most.map(|most| row(most - high, -1.0)));
        }
        rows
    }

    fn settle(&self, net: &Net, rows: Vec<Row>, tape: f64) -> SetOuts {
        let mut moves = vec![0.0; self.links.len()];
        let mut clashes = Vec::new();
        for program in self.programs(&rows) {
            let best = fair::fair(&program);
            clashes.extend(clash::clashes(&program, |at| self.links[at]));
            for (at, value) in program.settings.iter().zip(best) {
                moves[*at] = value;
            }
        }
        clashes.extend(
            rows.iter()
                .filter(|row| row.gains.is_empty() && row.left < -SLACK)
                .map(|row| Clash {
                    needs: vec![row.need.into()],
                    settings: Vec::new(),
                    short: -row.left,
                }),
        );
        let on_tape = tape::round(&rows, &self.ranges, &moves, tape);
        let middle = |at: usize| f64::midpoint(self.ranges[at].0, self.ranges[at].1);
        let settings = self.links.iter().enumerate().map(|(at, link)| Setting {
            link: *link,
            exact: middle(at) + moves[at],
            value: middle(at) + on_tape[at],
        });
        SetOuts {
            settings: settings.collect(),
            margins: margins(net, &rows, &moves, &on_tape),
            clashes,
        }
    }

    /// Needs that share settings belong to one program.
    fn programs(&self, rows: &[Row]) -> Vec<Program> {
        let mut joined = Joined::new(self.links.len());
        for row in rows {
            for pair in row.gains.windows(2) {
                joined.join(pair[0].0, pair[1].0);
            }
        }
        let mut place = vec![None; self.links.len()];
        let mut programs: Vec<Program> = Vec::new();
        let mut local = vec![0; self.links.len()];
        for at in 0..self.links.len() {
            let number = *place[joined.group(at)].get_or_insert_with(|| {
                programs.push(Program::default());
                programs.len() - 1
            });
            place[at] = Some(number);
            let program = &mut programs[number];
            local[at] = program.settings.len();
            program.settings.push(at);
            program
                .reach
                .push((self.ranges[at].1 - self.ranges[at].0) / 2.0);
        }
        for row in rows {
            let Some(number) = row.gains.first().and_then(|(at, _)| place[*at]) else {
                continue;
            };
            let gains = row.gains.iter().map(|(at, gain)| (local[*at], *gain));
            programs[number].rows.push(Row {
                gains: gains.collect(),
                ..row.clone()
            });
        }
        programs
    }
}

fn margins(net: &Net, rows: &[Row], exact: &[f64], on_tape: &[f64]) -> Vec<Option<Margin>> {
    let mut margins: Vec<Option<Margin>> = vec![None; net.needs.len()];
    for row in rows {
        let (exact, rounded) = (row.margin(exact), row.margin(on_tape));
        let margin = margins[row.need].get_or_insert(Margin { exact, rounded });
        margin.exact = margin.exact.min(exact);
        margin.rounded = margin.rounded.min(rounded);
    }
    margins
}
