//! Where everything stands on the chart, in pixels.

use super::lanes::{Span, pack};
use super::{Bar, Mark, Place, Weeks, Zoom};

/// Height of the line that carries a level's name.
pub(crate) const LEVEL_HEIGHT: f64 = 34.0;
/// Half the width kept free for a mark.
pub(crate) const MARK_HALF: f64 = 9.0;

/// Measures of a zoom.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Measures {
    pub(crate) day: f64,
    pub(crate) lane: f64,
    pub(crate) bar: f64,
    /// Narrowest bar: thinner than this nothing could be seen or pressed.
    pub(crate) narrowest: f64,
    /// Narrowest part that answers to a press.
    pub(crate) touch: f64,
    pub(crate) lettered: bool,
}

impl Measures {
    fn of(zoom: Zoom, days: usize) -> Self {
        match zoom {
            Zoom::TwoWeeks => Self {
                day: 72.0,
                lane: 44.0,
                bar: 30.0,
                narrowest: 8.0,
                touch: 44.0,
                lettered: true,
            },
            Zoom::SixWeeks => Self {
                day: 25.0,
                lane: 32.0,
                bar: 20.0,
                narrowest: 5.0,
                touch: 30.0,
                lettered: true,
            },
            Zoom::AllWeeks => {
                let day = (1150.0 / f64::from(u32::try_from(days.max(1)).unwrap_or(u32::MAX)))
                    .clamp(4.0, 25.0);
                Self {
                    day,
                    lane: 24.0,
                    bar: 15.0,
                    narrowest: 3.0,
                    touch: 0.0,
                    lettered: false,
                }
            }
        }
    }
}

/// A bar or a mark in its lane.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Placed<'a> {
    pub(crate) what: What<'a>,
    pub(crate) span: Span,
    pub(crate) lane: usize,
    /// How far the lane is free to the left and right, for lettering and for the part that answers to a press.
    pub(crate) free: Span,
}

#[derive(Debug, Clone, Copy)]
pub(crate) enum What<'a> {
    Bar(&'a Bar),
    Mark(&'a Mark),
}

/// A place's row.
#[derive(Debug)]
pub(crate) struct Row<'a> {
    pub(crate) place: &'a Place,
    pub(crate) y: f64,
    pub(crate) height: f64,
    /// In order of beginning.
    pub(crate) placed: Vec<Placed<'a>>,
}

/// The whole chart.
#[derive(Debug)]
pub(crate) struct Layout<'a> {
    pub(crate) measures: Measures,
    pub(crate) width: f64,
    pub(crate) height: f64,
    /// Bottom of each level's line, where the heavy rule runs, with the rows under it.
    pub(crate) levels: Vec<(f64, Vec<Row<'a>>)>,
}

impl<'a> Layout<'a> {
    pub(crate) fn of(chart: &'a Weeks) -> Self {
        let measures = Measures::of(chart.zoom, chart.days.len());
        let width = measures.day * f64::from(u32::try_from(chart.days.len()).unwrap_or(u32::MAX));
        let mut y = 0.0;
        let mut levels = Vec::new();
        for level in &chart.levels {
            y += LEVEL_HEIGHT;
            let rule = y;
            let rows = level
                .places
                .iter()
                .map(|place| {
                    let row = Row::of(place, y, width, measures);
                    y += row.height;
                    row
                })
                .collect();
            levels.push((rule, rows));
        }
        Self {
            measures,
            width,
            height: y + 8.0,
            levels,
        }
    }

    pub(crate) fn rows(&self) -> impl Iterator<Item = &Row<'a>> {
        self.levels.iter().flat_map(|(_, rows)| rows)
    }

    /// Where a moment stands, kept on the sheet; nothing for what is not a number.
    pub(crate) fn x(&self, days: f64) -> Option<f64> {
        days.is_finite()
            .then(|| (days * self.measures.day).clamp(0.0, self.width))
    }
}

impl<'a> Row<'a> {
    fn of(place: &'a Place, y: f64, width: f64, measures: Measures) -> Self {
        let bars = place
            .bars
            .iter()
            .filter_map(|bar| Some((What::Bar(bar), bar_span(bar, width, measures)?)));
        let marks = place
            .marks
            .iter()
            .filter_map(|mark| Some((What::Mark(mark), mark_span(mark, width, measures)?)));
        let mut items: Vec<(What<'a>, Span)> = bars.chain(marks).collect();
        items.sort_by(|(_, a), (_, b)| {
            (a.from, a.to)
                .partial_cmp(&(b.from, b.to))
                .unwrap_or(std::cmp::Ordering::Equal)
        });
        let spans: Vec<Span> = items.iter().map(|(_, span)| *span).collect();
        let (lanes, count) = pack(&spans);
        let placed = items
            .iter()
            .zip(&lanes)
            .enumerate()
            .map(|(index, ((what, span), lane))| Placed {
                what: *what,
                span: *span,
                lane: *lane,
                free: free_around(index, &spans, &lanes, width),
            })
            .collect();
        let lane_count = f64::from(u32::try_from(count.max(1)).unwrap_or(u32::MAX));
        Self {
            place,
            y,
            height: measures.lane * lane_count,
            placed,
        }
    }

    /// Middle of a lane.
    pub(crate) fn lane_middle(&self, lane: usize, measures: Measures) -> f64 {
        self.y + measures.lane * (f64::from(u32::try_from(lane).unwrap_or(u32::MAX)) + 0.5)
    }
}

fn bar_span(bar: &Bar, width: f64, measures: Measures) -> Option<Span> {
    let (from, to) = (bar.from * measures.day, bar.to * measures.day);
    let seen = from.is_finite() && to.is_finite() && to >= from && to > 0.0 && from < width;
    if !seen {
        return None;
    }
    let from = from.max(0.0).min(width - measures.narrowest);
    Some(Span {
        from,
        to: to.min(width).max(from + measures.narrowest),
    })
}

fn mark_span(mark: &Mark, width: f64, measures: Measures) -> Option<Span> {
    let at = mark.at * measures.day;
    (at.is_finite() && at >= 0.0 && at <= width).then(|| {
        let at = at.clamp(MARK_HALF, (width - MARK_HALF).max(MARK_HALF));
        Span {
            from: at - MARK_HALF,
            to: at + MARK_HALF,
        }
    })
}

/// From the end of what stands before in the same lane to the beginning of what follows. Spans come in order.
fn free_around(index: usize, spans: &[Span], lanes: &[usize], width: f64) -> Span {
    let lane = lanes.get(index);
    let same = |other: &usize| lanes.get(*other) == lane;
    let before = (0..index)
        .rev()
        .find(same)
        .and_then(|other| spans.get(other))
        .map_or(0.0, |span| span.to);
    let after = (index + 1..spans.len())
        .find(same)
        .and_then(|other| spans.get(other))
        .map_or(width, |span| span.from);
    Span {
        from: before,
        to: after,
    }
}
