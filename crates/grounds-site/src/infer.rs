//! What follows from what was noted over it: what lies behind is presumed, not known.

use grounds_model::{Job, LayerKey};

use crate::{
    apply::Tallies,
    house,
    state::{Seen, Subject},
};

/// A piece that nobody saw is taken to be in because of what covers it: without the cover it is not.
pub(crate) fn uncovered(job: &Job, tallies: &mut Tallies) {
    for (id, piece) in &job.pieces {
        let subject = Subject::Piece(id.clone());
        let is_presumed = tallies
            .get(&subject)
            .is_some_and(|tally| tally.state.presumed.is_some());
        let is_begun = |cover: &Subject| {
            let state = tallies.get(cover).map(|tally| &tally.state);
            state.is_some_and(|state| state.done.or(state.started).is_some())
        };
        let mut covers = piece
            .before
            .iter()
            .flat_map(|about| house::works(job, about));
        if is_presumed && !covers.any(|cover| is_begun(&cover)) {
            let state = &mut tallies.entry(subject).or_default().state;
            state.done = None;
            state.presumed = None;
        }
    }
}

/// Marks every layer of which nobody ever said a word, and over which work was noted, as presumed.
/// Whether it was done is asked beside that.
pub(crate) fn behind(job: &Job, tallies: &mut Tallies) {
    for (place, design) in &job.places {
        for (face, design) in &design.faces {
            let mut cover: Option<Seen> = None;
            for layer in house::layers(job, design).iter().rev() {
                // Protection is taken up again: it says nothing of what is under it.
                if layer.protective {
                    continue;
                }
                let subject = Subject::Layer(LayerKey {
                    place: place.clone(),
                    face: face.clone(),
                    layer: layer.id.clone(),
                });
                let state = tallies.get(&subject).map(|tally| &tally.state);
                if state.is_none_or(|state| !state.is_told()) {
                    if let Some(seen) = cover {
                        let state = &mut tallies.entry(subject).or_default().state;
                        state.presumed = Some(seen);
                        state.unseen = None;
                    }
                    continue;
                }
                cover = state
                    .and_then(|state| state.done.or(state.started))
                    .or(cover);
            }
        }
    }
}
