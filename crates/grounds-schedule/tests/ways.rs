//! Shut floors, two ways round, dust and still air.

mod common;

use common::*;
use grounds_schedule::*;

/// One hall with five rooms; kitchen and lounge are joined, and the kitchen has a door to the yard.
struct Flat {
    problem: Problem,
    hall: NodeId,
    bedroom: NodeId,
    bath: NodeId,
    kitchen: NodeId,
    lounge: NodeId,
}

fn flat() -> Flat {
    let mut problem = house();
    let access = &mut problem.access;
    let [hall, bedroom, bath, kitchen, lounge] = [(); 5].map(|()| access.add());
    for room in [bedroom, bath, kitchen, lounge] {
        access.join(hall, room);
    }
    access.join(kitchen, lounge);
    access.entrances = vec![hall, kitchen];
    Flat {
        problem,
        hall,
        bedroom,
        bath,
        kitchen,
        lounge,
    }
}

/// Adds work of one crew day in a room, booked for a day.
fn booked(problem: &mut Problem, room: NodeId, day: Tick) -> ActivityId {
    let id = add(
        problem,
        Activity {
            at: Some(room),
            ..work(32)
        },
    );
    date(problem, id, End::Start, Side::NotBefore, at(day, 8));
    id
}

/// Three hall coats at 16:00 on days 0, 1 and 2; 72 hours to boots after each.
fn coat_hall(flat: &mut Flat) -> Vec<ActivityId> {
    let coat = |day| {
        let closes = vec![shut(flat.hall, Tread::Boots, 72 * HOUR)];
        let coat = Activity {
            at: Some(flat.hall),
            group: Some(GroupId(1)),
            closes,
            ..units(0)
        };
        let id = add(&mut flat.problem, coat);
        date(
            &mut flat.problem,
            id,
            End::Start,
            Side::NotBefore,
            at(day, 16),
        );
        date(
            &mut flat.problem,
            id,
            End::Start,
            Side::NotAfter,
            at(day, 16),
        );
        id
    };
    (0..3).map(coat).collect()
}

/// Kitchen tile on days 1 and 2, no walking until a day after.
fn tile_kitchen(flat: &mut Flat) -> ActivityId {
    let closes = vec![shut(flat.kitchen, Tread::Light, 24 * HOUR)];
    let tile = add(
        &mut flat.problem,
        Activity {
            at: Some(flat.kitchen),
            closes,
            ..work(64)
        },
    );
    for side in [Side::NotBefore, Side::NotAfter] {
        date(&mut flat.problem, tile, End::Start, side, at(1, 8));
    }
    tile
}

#[test]
fn one_wet_hall_cuts_off_the_rooms_without_another_way_in() {
    // A field case: hall coats and kitchen tile in one week; answers worked by hand from reachability
    // with the wet rooms taken off the map [arithmetic].
    let mut flat = flat();
    coat_hall(&mut flat);
    let tile = tile_kitchen(&mut flat);
    let painter = booked(&mut flat.problem, flat.bedroom, 1);
    let plumber = booked(&mut flat.problem, flat.bath, 2);
    let electrician = booked(&mut flat.problem, flat.lounge, 3);
    let plan = plan(&flat.problem);
    let start = |id: ActivityId| plan.starts[id.index()];
    assert_eq!(start(tile), at(1, 8), "through the yard");
    assert_eq!(
        start(painter),
        at(7, 8),
        "Saturday 16:00 is dry, Monday is worked"
    );
    assert_eq!(start(plumber), at(7, 8));
    assert_eq!(
        start(electrician),
        at(4, 8),
        "through yard and kitchen, once the tile bears"
    );
    let reasons = explain(&flat.problem, &plan, electrician);
    assert!(
        matches!(&reasons[..], [Reason::ShutOff { by }] if by.contains(&tile)),
        "{reasons:?}"
    );
}

#[test]
fn the_crew_that_coats_the_hall_may_walk_on_its_own_floor() {
    let mut flat = flat();
    let coats = coat_hall(&mut flat);
    let plan = plan(&flat.problem);
    assert_eq!(plan.starts[coats[2].index()], at(2, 16));
}

#[test]
fn a_floor_that_is_open_again_by_morning_harms_nobody() {
    let mut flat = flat();
    let coat = Activity {
        at: Some(flat.hall),
        closes: vec![shut(flat.hall, Tread::Boots, 12 * HOUR)],
        ..units(0)
    };
    let coat = add(&mut flat.problem, coat);
    date(
        &mut flat.problem,
        coat,
        End::Start,
        Side::NotBefore,
        at(0, 16),
    );
    let painter = add(
        &mut flat.problem,
        Activity {
            at: Some(flat.bedroom),
            ..work(64)
        },
    );
    let plan = plan(&flat.problem);
    assert_eq!(
        plan.starts[coat.index()],
        at(0, 16),
        "the painter is there for two days"
    );
    assert_eq!(plan.starts[painter.index()], at(0, 8));
}

#[test]
fn a_coat_waits_until_nobody_behind_it_would_be_cut_off() {
    let mut flat = flat();
    let closes = vec![shut(flat.hall, Tread::Boots, 24 * HOUR)];
    let coat = add(
        &mut flat.problem,
        Activity {
            at: Some(flat.hall),
            closes,
            ..work(4)
        },
    );
    let painter = booked(&mut flat.problem, flat.bedroom, 0);
    date(
        &mut flat.problem,
        painter,
        End::Start,
        Side::NotAfter,
        at(0, 8),
    );
    let plan = plan(&flat.problem);
    assert_eq!(plan.starts[painter.index()], at(0, 8));
    assert_eq!(
        plan.starts[coat.index()],
        at(1, 8),
        "not while the painter is in the bedroom"
    );
    let reasons = explain(&flat.problem, &plan, coat);
    assert!(
        reasons.contains(&Reason::WouldShutOff {
            others: vec![painter]
        }),
        "{reasons:?}"
    );
}

#[test]
fn socks_may_cross_where_boots_may_not() {
    let mut flat = flat();
    let closes = vec![shut(flat.hall, Tread::Boots, 72 * HOUR)];
    let fact = Fact::Done {
        from: at(-1, 15),
        until: at(-1, 16),
    };
    add(
        &mut flat.problem,
        Activity {
            at: Some(flat.hall),
            closes,
            fact,
            ..work(4)
        },
    );
    let owner = Activity {
        at: Some(flat.bedroom),
        tread: Tread::Light,
        ..work(4)
    };
    let owner = add(&mut flat.problem, owner);
    let painter = add(
        &mut flat.problem,
        Activity {
            at: Some(flat.bedroom),
            ..work(4)
        },
    );
    let plan = plan(&flat.problem);
    assert_eq!(plan.starts[owner.index()], at(0, 8));
    assert_eq!(
        plan.starts[painter.index()],
        at(3, 8),
        "Wednesday 16:00, so Thursday morning"
    );
}

#[test]
fn a_room_with_no_way_in_is_planned_and_named() {
    let mut flat = flat();
    let loft = flat.problem.access.add();
    let id = add(
        &mut flat.problem,
        Activity {
            at: Some(loft),
            ..work(4)
        },
    );
    let solved = solve(&flat.problem, &Effort::default()).unwrap();
    let cut = Breach::CutOff {
        activity: id,
        node: loft,
        at: at(0, 8),
        by: vec![],
    };
    assert_eq!(solved.breaches, [cut]);
    let clash = clash(&flat.problem).unwrap().unwrap();
    assert_eq!(clash.parts, [ClashPart::NoWayIn(id)]);
}

#[test]
fn sanding_waits_until_the_varnish_next_door_is_dust_dry() {
    let mut problem = house();
    let zone = ZoneId(7);
    let still = Still {
        zone,
        from: moment(End::Start, 0),
        until: moment(End::Finish, 8 * HOUR),
    };
    let varnish = add(
        &mut problem,
        Activity {
            still: vec![still],
            ..work(8)
        },
    );
    let sanding = add(
        &mut problem,
        Activity {
            dusty: Some(zone),
            ..work(16)
        },
    );
    date(&mut problem, varnish, End::Start, Side::NotAfter, at(0, 8));
    let plan = plan(&problem);
    assert_eq!(plan.starts[varnish.index()], at(0, 8));
    assert_eq!(plan.starts[sanding.index()], at(1, 8), "still until 18:00");
    let reasons = explain(&problem, &plan, sanding);
    assert!(reasons.contains(&Reason::Dust {
        with: vec![varnish]
    }));
}

#[test]
fn dust_that_stops_at_four_does_not_meet_a_coat_laid_at_four() {
    // The same field case: tile cutting stops at 16:00 when the hall coat goes down.
    let mut problem = house();
    let zone = ZoneId(0);
    let tile = add(
        &mut problem,
        Activity {
            dusty: Some(zone),
            ..work(64)
        },
    );
    let still = Still {
        zone,
        from: moment(End::Start, 0),
        until: moment(End::Finish, 8 * HOUR),
    };
    let coat = add(
        &mut problem,
        Activity {
            still: vec![still],
            ..units(0)
        },
    );
    date(&mut problem, coat, End::Start, Side::NotBefore, at(0, 16));
    let plan = plan(&problem);
    assert_eq!(
        (plan.starts[tile.index()], plan.starts[coat.index()]),
        (at(0, 8), at(0, 16))
    );
}
