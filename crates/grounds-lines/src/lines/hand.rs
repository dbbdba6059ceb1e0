//! Lines by hand: what the build-ups do not say.

use std::collections::BTreeMap;

use grounds_fit::net::{LinkKind, Need, PointId, Shape};
use grounds_measure::Length;
use grounds_model::{Id, Line, LineLink, LineNeed, Ref, Target};
use grounds_site::words;

use super::{Lines, Missing, NeedKind, Wanted, built, design, key_ref};
use crate::said;

impl Lines<'_> {
    /// Every line by hand.
    pub(super) fn add_hand_lines(&mut self) {
        let job = self.job;
        for (id, line) in &job.lines {
            self.add_hand_line(id, line);
        }
    }

    fn add_hand_line(&mut self, id: &Id, line: &Line) {
        let mut points = BTreeMap::new();
        for (key, point) in &line.points {
            let on = point.on.as_ref();
            let at = match on.and_then(|on| self.plane_of(on, &Id::default())) {
                Some(at) => at,
                None => self.point(words::with_article(&point.name), key_ref(id)),
            };
            points.insert(key.clone(), at);
        }
        for (key, link) in &line.links {
            if let (Some(from), Some(to)) = (points.get(&link.from), points.get(&link.to)) {
                self.add_hand_link(id, key, link, (*from, *to));
            }
        }
        for (key, need) in &line.needs {
            if let (Some(from), Some(to)) = (points.get(&need.from), points.get(&need.to)) {
                let names = [&need.to, &need.from].map(|point| {
                    let point = line.points.get(point);
                    point.map_or_else(String::new, |point| words::with_article(&point.name))
                });
                self.add_hand_need((id, key), need, (*from, *to), names);
            }
        }
    }

    fn add_hand_link(&mut self, id: &Id, key: &Id, link: &LineLink, ends: (PointId, PointId)) {
        let name = words::with_article(&link.name);
        let about = link.about.clone().unwrap_or_else(|| key_ref(id));
        let reads = self.readings.of_named(&key_ref(id), key.as_str());
        if !reads.is_empty() {
            for read in &reads {
                self.add_reading(ends, read, &name, &about);
            }
            return;
        }
        let kind = match (link.is, link.least, link.most) {
            (chosen, Some(least), Some(most)) => LinkKind::Set {
                low: least.mm(),
                high: most.mm(),
                chosen: chosen.map(Length::mm),
                within: link.within.unwrap_or_default().mm(),
                shape: Shape::Normal,
            },
            (Some(is), ..) => {
                let within = link.within.unwrap_or_default();
                built(
                    is,
                    link.minus.unwrap_or(within),
                    link.plus.unwrap_or(within),
                )
            }
            _ => {
                let missing = Missing {
                    what: name,
                    who: said::site_lead(),
                    about,
                };
                return self.gap(ends, missing);
            }
        };
        self.tie_points(ends, kind, design(name, about, true));
    }

    fn add_hand_need(
        &mut self,
        (line, key): (&Id, &Id),
        need: &LineNeed,
        (from, to): (PointId, PointId),
        [subject, against]: [String; 2],
    ) {
        let about = need.about.clone().unwrap_or_else(|| key_ref(line));
        let orders = self.piece_of(&about).into_iter().collect();
        self.want(Wanted {
            key: format!("{line}.{key}"),
            name: words::capital(&words::plain(&need.name)),
            about,
            kind: NeedKind::ByHand,
            need: Need {
                from,
                to,
                least: need.least.map(Length::mm),
                most: need.most.map(Length::mm),
            },
            subject,
            against,
            orders,
            id: None,
            missing: Vec::new(),
        });
    }

    fn piece_of(&self, about: &Ref) -> Option<Id> {
        match self.job.resolve(about)? {
            Target::Piece(id) => Some(id),
            Target::Opening(id) => self.job.openings.get(&id)?.piece.clone(),
            _ => None,
        }
    }
}
