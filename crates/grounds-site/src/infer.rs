//! What follows from what was noted over it: what lies behind is presumed, not known.

use grounds_model::{Job, LayerKey};

use crate::{
    apply::Tallies,
    house,
    state::{Seen, Subject},
};

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
