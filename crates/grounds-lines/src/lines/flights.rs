//! Flights: the first and the last rise against the others, with the finish at both ends.

use grounds_fit::net::{LinkKind, Need, PointId, Shape};
use grounds_model::{FaceKind, Flight, Id, LayerKey};
use grounds_site::words;

use super::{Lines, NeedKind, Wanted, design, key_ref, planes::moves_the_face, ties::Ways};
use crate::said;

impl Lines<'_> {
    /// The rises of every flight.
    pub(super) fn add_flights(&mut self) {
        let job = self.job;
        for (id, place) in &job.places {
            if let Some(flight) = &place.flight {
                self.add_flight(id, flight);
            }
        }
    }

    fn add_flight(&mut self, id: &Id, flight: &Flight) {
        let (Some(foot), Some(head)) = (
            self.floor_of(&flight.foot).cloned(),
            self.floor_of(&flight.head).cloned(),
        ) else {
            return;
        };
        let stair = said::place(self.job, id);
        let treads = self.tread_layers(id);
        let rise = |risers: u32| rises(flight, risers);
        let first = self.point(format!("the first tread of {stair} as framed"), key_ref(id));
        let tie = |what: &str| design(format!("{what} of {stair} as framed"), key_ref(id), false);
        let lowest = Flight {
            rise: flight.first.unwrap_or(flight.rise),
            ..flight.clone()
        };
        self.tie_points(
            (foot.structure, first),
            rises(&lowest, 1),
            tie("the first rise"),
        );
        let mut framed = first;
        if flight.risers > 2 {
            framed = self.point(format!("the last tread of {stair} as framed"), key_ref(id));
            let between = rise(flight.risers - 2);
            self.tie_points((first, framed), between, tie("the rises between"));
        }
        // Where the levels say where the structure at the head is, the last rise is what is left.
        if !Ways::of(self).tied(framed, head.structure) {
            self.tie_points((framed, head.structure), rise(1), tie("the last rise"));
        }
        if flight.risers < 2 {
            return;
        }
        let on_first = self.finish_tread(id, first, &treads);
        let on_last = if framed == first {
            on_first
        } else {
            self.finish_tread(id, framed, &treads)
        };
        self.want_rise(
            id,
            flight,
            "first-rise",
            "The first rise",
            (foot.finish(), on_first),
        );
        self.want_rise(
            id,
            flight,
            "last-rise",
            "The last rise",
            (on_last, head.finish()),
        );
    }

    /// The layers of the treads: the first floor of the stair.
    fn tread_layers(&self, id: &Id) -> Vec<LayerKey> {
        let place = self.job.places.get(id);
        let floor = place.and_then(|place| {
            let mut floors = place.faces.iter();
            floors.find(|(_, face)| face.kind == FaceKind::Floor)
        });
        floor.map_or_else(Vec::new, |(key, _)| self.job.layers_of(id, key))
    }

    /// The top of one tread over its framing: what lies flat on it, not what stands before it.
    fn finish_tread(&mut self, id: &Id, framed: PointId, layers: &[LayerKey]) -> PointId {
        let mut at = framed;
        for key in layers {
            let Some(layer) = self.job.layer(key).cloned() else {
                continue;
            };
            if !moves_the_face(&layer) {
                continue;
            }
            let name = grounds_site::name(self.job, &grounds_site::Subject::Layer(key.clone()));
            let next = self.point(format!("the top of {name}"), key_ref(id));
            self.add_thickness((at, next), &layer, key, &name);
            at = next;
        }
        at
    }

    fn want_rise(
        &mut self,
        id: &Id,
        flight: &Flight,
        word: &str,
        head: &str,
        ends: (PointId, PointId),
    ) {
        let Some(most) = flight.most_difference else {
            return;
        };
        let stair = said::place(self.job, id);
        self.want(Wanted {
            key: format!("{id}.{word}"),
            name: format!("{head} of {stair} like the others"),
            about: key_ref(id),
            kind: NeedKind::Rise,
            need: Need {
                from: ends.0,
                to: ends.1,
                least: Some((flight.rise - most).mm()),
                most: Some((flight.rise + most).mm()),
            },
            subject: format!(
                "{} of {stair}",
                words::with_article(&said::lower_first(head))
            ),
            against: "the other rises".to_owned(),
            orders: Vec::new(),
            id: None,
            missing: Vec::new(),
        });
    }
}

/// So many framed rises, one on another.
fn rises(flight: &Flight, risers: u32) -> LinkKind {
    let within = flight.within.unwrap_or_default().mm();
    LinkKind::Built {
        nominal: flight.rise.mm() * f64::from(risers),
        minus: within * f64::from(risers),
        plus: within * f64::from(risers),
        shape: Shape::Normal,
    }
}
