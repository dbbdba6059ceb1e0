//! Which links speak, before and after readings are in.

use super::joined::Joined;
use crate::net::{LinkId, LinkKind, Net};

/// The links of the prior: what is built and what was chosen; then settings not yet chosen, where
/// they join what nothing else joins; then readings, but only between points that still are not
/// joined (an existing slab that nobody designed), and there all of them.
pub(crate) fn before_readings(net: &Net) -> Vec<LinkId> {
    let mut joined = Joined::new(net.points);
    let mut taken = Vec::new();
    take_all(net, &mut joined, &mut taken, |_, kind| is_given(kind));
    take_joining(net, &mut joined, &mut taken, &[]);
    for (id, kind) in links(net) {
        let link = &net.links[id.index()];
        let apart = !joined.together(link.from.index(), link.to.index());
        if matches!(kind, LinkKind::Measured { .. }) && apart {
            taken.push(id);
        }
    }
    taken.sort_unstable();
    taken
}

/// The links of the adjustment: what is built, what was chosen and every reading; then settings not
/// yet chosen, where they join what nothing else joins. Where readings join both ends of such a
/// setting, they tell how it was set, and the middle of its range says nothing.
/// Links set aside have no say.
pub(crate) fn with_readings(net: &Net, set_aside: &[LinkId]) -> Vec<LinkId> {
    let mut joined = Joined::new(net.points);
    let mut taken = Vec::new();
    take_all(net, &mut joined, &mut taken, |id, kind| {
        !is_open(kind) && !set_aside.contains(&id)
    });
    take_joining(net, &mut joined, &mut taken, set_aside);
    taken.sort_unstable();
    taken
}

/// A setting that nobody chose yet.
pub(crate) fn is_open(kind: LinkKind) -> bool {
    matches!(kind, LinkKind::Set { chosen: None, .. })
}

fn is_given(kind: LinkKind) -> bool {
    matches!(kind, LinkKind::Built { .. })
        || (matches!(kind, LinkKind::Set { .. }) && !is_open(kind))
}

fn links(net: &Net) -> impl Iterator<Item = (LinkId, LinkKind)> {
    let links = net.links.iter().enumerate();
    links.map(|(index, link)| (index.into(), link.kind))
}

fn take_all(
    net: &Net,
    joined: &mut Joined,
    taken: &mut Vec<LinkId>,
    wanted: impl Fn(LinkId, LinkKind) -> bool,
) {
    for (id, _) in links(net).filter(|(id, kind)| wanted(*id, *kind)) {
        let link = &net.links[id.index()];
        joined.join(link.from.index(), link.to.index());
        taken.push(id);
    }
}

fn take_joining(net: &Net, joined: &mut Joined, taken: &mut Vec<LinkId>, set_aside: &[LinkId]) {
    let open = |(id, kind): &(LinkId, LinkKind)| is_open(*kind) && !set_aside.contains(id);
    for (id, _) in links(net).filter(open) {
        let link = &net.links[id.index()];
        if joined.join(link.from.index(), link.to.index()) {
            taken.push(id);
        }
    }
}
