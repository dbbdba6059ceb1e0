//! Readings that disagree, and work that was not built as meant.

use grounds_fit::adjust::{CRITICAL, adjust, adjust_without};
use grounds_fit::net::LinkId;

use crate::{built, close, need, net, read};

#[test]
fn one_reading_of_four_that_is_eleven_millimetres_off_is_named() {
    let mut links: Vec<_> = [2307.2, 2306.8, 2318.0, 2307.0]
        .into_iter()
        .map(|reading| read(0, 1, reading, 0.8))
        .collect();
    links.push(built(0, 1, 2310.0, 15.0));
    let net = net(2, links, vec![need(0, 1, Some(2300.0), Some(2310.0))]);
    let adjusted = adjust(&net).unwrap();
    let named: Vec<_> = adjusted.outliers.iter().map(|it| it.link).collect();
    assert_eq!(named, [LinkId(2)]);
    let worst = &adjusted.outliers[0];
    close(worst.off_by, 11.0, 0.1);
    assert!(worst.standardised > CRITICAL || worst.standardised < -CRITICAL);
    assert!(worst.rivals.is_empty());
    assert!(adjusted.agreement.chance < 0.001);

    let rest = adjust_without(&net, &[LinkId(2)]).unwrap();
    assert!(rest.outliers.is_empty() && rest.links[2].is_none());
    assert!(rest.agreement.chance > 0.05);
    close(rest.needs[0].unwrap().mean, 2307.0, 0.1);
}

/// A layer of 12 ± 1 mm that reads 9 mm: the work is named, because a reading says what was seen,
/// and the reading as its rival, because nothing else decides.
#[test]
fn a_coat_that_went_on_too_thin_is_named_before_the_reading_of_it() {
    let net = net(
        2,
        vec![read(0, 1, 9.0, 0.4), built(0, 1, 12.0, 1.0)],
        vec![],
    );
    let outliers = adjust(&net).unwrap().outliers;
    assert_eq!(outliers.len(), 1);
    assert_eq!(outliers[0].link, LinkId(1));
    assert_eq!(outliers[0].rivals, [LinkId(0)]);
    close(outliers[0].off_by, 3.0, 1e-9);
}

#[test]
fn two_wrong_readings_of_a_closed_round_are_both_found() {
    let lines = [
        (0, 1, 500.0),
        (1, 2, 700.0),
        (2, 3, 300.0),
        (0, 2, 1200.0),
        (1, 3, 1000.0),
        (0, 3, 1500.0),
        (0, 1, 512.0),
        (2, 3, 291.0),
        (0, 2, 1200.4),
        (1, 3, 999.7),
    ];
    let links = lines
        .map(|(from, to, reading)| read(from, to, reading, 0.8))
        .to_vec();
    let mut named: Vec<_> = adjust(&net(4, links, vec![]))
        .unwrap()
        .outliers
        .into_iter()
        .map(|it| it.link)
        .collect();
    named.sort_unstable();
    assert_eq!(named, [LinkId(6), LinkId(7)]);
}

#[test]
fn links_that_agree_are_left_alone_but_for_one_in_a_thousand() {
    let plan = crate::drawn::Plan {
        groups: 60,
        points: 12,
        readings: 20,
        loops: 0,
        needs: 0,
        settings: 0.0,
        shaped: 0.0,
    };
    let adjusted = adjust(&crate::drawn::net(plan, 5)).unwrap();
    let tested = adjusted
        .links
        .iter()
        .flatten()
        .filter(|it| it.standardised.is_some())
        .count();
    assert!(tested > 1500);
    assert!(
        adjusted.outliers.len() < tested / 100,
        "{} of {tested}",
        adjusted.outliers.len()
    );
}
