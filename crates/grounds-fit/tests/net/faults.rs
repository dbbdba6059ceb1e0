//! Nets that nothing can be computed from say where, what and how to mend it.

use grounds_fit::adjust::adjust;
use grounds_fit::check::{Figure, Place, Wrong, faults};
use grounds_fit::net::{LinkId, LinkKind, NeedId, PointId, Shape};
use grounds_fit::prior::prior;
use grounds_fit::set_out::{Measure, SetOutFault, set_outs};

use crate::{built, link, need, net, read, set};

#[test]
fn a_point_that_does_not_exist_is_named() {
    let net = net(2, vec![built(0, 7, 1.0, 0.0)], vec![need(0, 0, None, None)]);
    let told: Vec<String> = faults(&net).iter().map(ToString::to_string).collect();
    assert_eq!(
        told,
        [
            "link 0: point 7 does not exist; there are 2 points, counted from 0: name one of them",
            "need 0: both ends are point 0; name two different points",
        ]
    );
}

#[test]
fn figures_that_are_no_lengths_are_told() {
    let setting = LinkKind::Set {
        low: 5.0,
        high: 9.0,
        chosen: Some(12.0),
        within: 0.0,
        shape: Shape::Normal,
    };
    let links = vec![
        built(0, 1, f64::NAN, 0.0),
        built(0, 1, 1.0, -0.5),
        built(0, 1, 3e7, 0.0),
        read(0, 1, 1.0, 0.0),
        read(0, 1, f64::INFINITY, 1.0),
        set(0, 1, 9.0, 5.0, 0.0),
        link(0, 1, setting),
    ];
    let net = net(2, links, vec![need(0, 1, Some(4.0), Some(3.0))]);
    let found: Vec<_> = faults(&net)
        .iter()
        .map(|fault| (fault.place, fault.what))
        .collect();
    let at = |link: u32| Place::Link(LinkId(link));
    let below = |figure| Wrong::BelowZero {
        figure,
        value: -0.5,
    };
    let crossed = |low_name, low, high_name, high| Wrong::Crossed {
        low_name,
        low,
        high_name,
        high,
    };
    let out = Wrong::OutOfRange {
        chosen: 12.0,
        low: 5.0,
        high: 9.0,
    };
    assert_eq!(
        found,
        [
            (at(0), Wrong::NotANumber(Figure::Nominal)),
            (at(1), below(Figure::Minus)),
            (at(1), below(Figure::Plus)),
            (at(2), Wrong::TooLarge(Figure::Nominal)),
            (at(3), Wrong::NoUncertainty(0.0)),
            (at(4), Wrong::NotANumber(Figure::Reading)),
            (at(5), crossed(Figure::Low, 9.0, Figure::High, 5.0)),
            (at(6), out),
            (
                Place::Need(NeedId(0)),
                crossed(Figure::Least, 4.0, Figure::Most, 3.0)
            ),
        ]
    );
    assert!(prior(&net).is_err());
    assert!(adjust(&net).is_err());
    let refused = set_outs(&net, Measure::WorstCase, 1.0);
    assert!(matches!(refused, Err(SetOutFault::Unsound(_))));
}

#[test]
fn a_need_between_parts_that_nothing_joins_stops_no_other() {
    let needs = vec![need(0, 3, Some(0.0), None), need(0, 1, Some(0.0), None)];
    let net = net(4, vec![built(0, 1, 5.0, 1.0), built(2, 3, 5.0, 1.0)], needs);
    let what = Wrong::NotJoined {
        from: PointId(0),
        to: PointId(3),
    };
    assert_eq!(
        faults(&net)
            .iter()
            .map(|fault| fault.what)
            .collect::<Vec<_>>(),
        [what]
    );
    let prior = prior(&net).unwrap();
    assert!(prior.needs[0].is_none() && prior.needs[1].is_some());
    assert!(prior.working(NeedId(0)).is_empty());
    assert!(prior.working(NeedId(9)).is_empty());
    let adjusted = adjust(&net).unwrap();
    assert!(adjusted.needs[0].is_none() && adjusted.needs[1].is_some());
    assert!(adjusted.distance(PointId(0), PointId(99)).is_none());
}

#[test]
fn an_empty_house_has_no_faults_and_no_answers() {
    let empty = net(0, vec![], vec![]);
    assert!(faults(&empty).is_empty());
    assert!(prior(&empty).unwrap().needs.is_empty());
    assert_eq!(adjust(&empty).unwrap().agreement.freedom, 0);
    assert!(
        set_outs(&empty, Measure::Spreads, 1.0)
            .unwrap()
            .settings
            .is_empty()
    );
}

#[test]
fn a_tape_without_marks_is_refused() {
    let empty = net(0, vec![], vec![]);
    for tape in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        assert!(matches!(
            set_outs(&empty, Measure::Spreads, tape),
            Err(SetOutFault::Tape(_))
        ));
    }
}
