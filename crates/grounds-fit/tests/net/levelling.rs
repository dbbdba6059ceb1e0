//! Levelling nets of textbooks, with their published heights.

use grounds_fit::adjust::{Adjustment, adjust};
use grounds_fit::net::{Net, PointId};

use crate::{built, close, need, net, read};

/// From, to, difference of heights in metres, standard deviation in millimetres.
type Line = (u32, u32, f64, f64);

/// Benchmarks are built exactly above a datum, which is the last point.
fn levelled(points: u32, benchmarks: &[(u32, f64)], lines: &[Line]) -> (Net, Adjustment) {
    let readings = lines
        .iter()
        .map(|(from, to, metres, sigma)| read(*from, *to, 1000.0 * metres, *sigma));
    let marks = benchmarks
        .iter()
        .map(|(mark, metres)| built(points, *mark, 1000.0 * metres, 0.0));
    let needs = (0..points)
        .map(|point| need(points, point, None, None))
        .collect();
    let links = readings.chain(marks).collect();
    let net = net(points as usize + 1, links, needs);
    let adjusted = adjust(&net).unwrap();
    (net, adjusted)
}

fn height(adjusted: &Adjustment, point: usize) -> f64 {
    adjusted.needs[point].unwrap().mean / 1000.0
}

fn spread(adjusted: &Adjustment, point: usize) -> f64 {
    adjusted.needs[point].unwrap().spread
}

fn residual(adjusted: &Adjustment, line: usize) -> f64 {
    adjusted.links[line].unwrap().residual
}

/// Three benchmarks, two new points, five lines of σ = 6 mm·√km. Data, Σ(v/σ)² = 4.636 and the error
/// factor 1.243 are published ("Linear Algebra, Geodesy and GPS", adjusted on a surveyors' forum);
/// heights, residuals and spreads were computed from them by hand and agree.
#[test]
fn five_lines_between_three_benchmarks_give_the_published_sums() {
    let sigma = |metres: f64| 6.0 * (metres / 1000.0).sqrt();
    let (a, b, c, e, f) = (0, 1, 2, 3, 4);
    let lines = [
        (a, e, 0.732, sigma(970.0)),
        (a, f, 1.978, sigma(1002.0)),
        (b, e, 0.420, sigma(1070.0)),
        (c, f, 0.988, sigma(1110.0)),
        (e, f, 1.258, sigma(890.0)),
    ];
    let (_, adjusted) = levelled(5, &[(a, 10.021), (b, 10.321), (c, 11.002)], &lines);
    close(height(&adjusted, 3), 10.74450, 5e-6);
    close(height(&adjusted, 4), 11.99762, 5e-6);
    for (line, should) in [-8.50, -1.38, 3.50, 7.62, -4.88].into_iter().enumerate() {
        close(residual(&adjusted, line), should, 5e-3);
    }
    close(spread(&adjusted, 3), 3.67, 5e-3);
    close(spread(&adjusted, 4), 3.71, 5e-3);
    let agreement = adjusted.agreement;
    assert_eq!(agreement.freedom, 3);
    close(agreement.value, 4.636, 5e-4);
    let factor = agreement.factor().unwrap();
    close(factor, 1.243, 5e-4);
    close(factor * spread(&adjusted, 3), 4.56, 5e-3);
    close(factor * spread(&adjusted, 4), 4.61, 5e-3);
    assert!(agreement.chance > 0.05 && agreement.chance < 0.95);
    assert!(adjusted.outliers.is_empty());
}

/// The same with unit weights: E 10.74437, F 11.99713 (computed by hand).
#[test]
fn five_lines_of_equal_weight() {
    let (a, b, c, e, f) = (0, 1, 2, 3, 4);
    let lines = [
        (a, e, 0.732, 6.0),
        (a, f, 1.978, 6.0),
        (b, e, 0.420, 6.0),
        (c, f, 0.988, 6.0),
        (e, f, 1.258, 6.0),
    ];
    let (_, adjusted) = levelled(5, &[(a, 10.021), (b, 10.321), (c, 11.002)], &lines);
    close(height(&adjusted, 3), 10.74437, 5e-6);
    // 11.997125, printed rounded up.
    close(height(&adjusted, 4), 11.99713, 5.1e-6);
}

/// Two new points between four benchmarks, variances in cm² [published exam problem; the result
/// agrees with one of its printed options, 101.01 ± 0.03 and 101.95 ± 0.03].
#[test]
fn four_benchmarks_and_a_poor_line_between_two_points() {
    let sigma = |variance: f64| 10.0 * variance.sqrt();
    let (a, b, c, d, p1, p2) = (0, 1, 2, 3, 4, 5);
    let lines = [
        (a, p1, 1.01, sigma(1.0)),
        (b, p1, 0.06, sigma(2.0)),
        (p2, c, 1.09, sigma(1.0)),
        (p2, d, 2.04, sigma(1.0)),
        (p1, p2, 1.03, sigma(3.0)),
    ];
    let marks = [(a, 100.0), (b, 101.0), (c, 103.0), (d, 104.0)];
    let (_, adjusted) = levelled(6, &marks, &lines);
    close(height(&adjusted, 4), 101.0072, 5e-5);
    close(height(&adjusted, 5), 101.9496, 5e-5);
    for (line, should) in [-2.8, -52.8, -39.6, 10.4, -87.6].into_iter().enumerate() {
        close(residual(&adjusted, line), should, 5e-2);
    }
    let factor = adjusted.agreement.factor().unwrap();
    close(factor, 4.334, 5e-4);
    close(factor * spread(&adjusted, 4), 32.0, 0.5);
    close(factor * spread(&adjusted, 5), 29.0, 0.5);
    assert!(
        adjusted.agreement.chance < 1e-6,
        "such a net does not agree with its variances"
    );
}

/// Data and printed results from memory of a chapter of "Adjustment Computations".
#[test]
fn seven_lines_round_two_benchmarks() {
    let (x, y, a, b, c) = (0, 1, 2, 3, 4);
    let lines = |sigmas: [f64; 7]| {
        let ways = [
            (x, a, 5.10),
            (a, y, 2.34),
            (y, c, -1.25),
            (c, x, -6.13),
            (a, b, -0.68),
            (y, b, -3.00),
            (b, c, 1.70),
        ];
        let lines = ways.into_iter().zip(sigmas);
        lines
            .map(|((from, to, metres), sigma)| (from, to, metres, sigma))
            .collect::<Vec<_>>()
    };
    let marks = [(x, 100.0), (y, 107.5)];
    let (_, equal) = levelled(5, &marks, &lines([1000.0; 7]));
    for (point, should) in [(2, 105.141), (3, 104.483), (4, 106.188)] {
        close(height(&equal, point), should, 5e-4);
    }
    assert_eq!(equal.agreement.freedom, 4);
    close(equal.agreement.factor().unwrap(), 0.0501, 1e-4);

    let lengths = [4.0, 3.0, 2.0, 3.0, 2.0, 2.0, 2.0_f64];
    let (_, by_length) = levelled(
        5,
        &marks,
        &lines(lengths.map(|l| 1000.0 * (l / 12.0).sqrt())),
    );
    for (point, should) in [(2, 105.150), (3, 104.489), (4, 106.197)] {
        close(height(&by_length, point), should, 5e-4);
    }
    close(by_length.agreement.factor().unwrap(), 0.107, 5e-4);
}

/// "Observations and Least Squares", table 7-1 [published data; heights computed from them].
#[test]
fn eight_lines_round_five_points() {
    let (a, b, c, d, e) = (0, 1, 2, 3, 4);
    let lines = [
        (a, b, 25.42, 18.1),
        (b, c, 10.34, 9.4),
        (c, a, -35.20, 14.2),
        (b, d, -15.54, 17.6),
        (d, e, 21.32, 13.5),
        (e, c, 4.82, 9.9),
        (e, a, -31.02, 13.8),
        (c, d, -26.11, 14.0_f64),
    ];
    let lines = lines.map(|(from, to, metres, km)| (from, to, metres, 1000.0 * km.sqrt()));
    let (_, adjusted) = levelled(5, &[(a, 0.0)], &lines);
    for (point, should) in [(1, 25.2206), (2, 35.5354), (3, 9.5339), (4, 30.8460)] {
        close(height(&adjusted, point), should, 5e-5);
    }
    assert_eq!(adjusted.agreement.freedom, 4);
    close(adjusted.agreement.factor().unwrap(), 0.0636, 5e-5);
}

/// Redundancy numbers add up to the degrees of freedom [published: textbooks].
#[test]
fn redundancy_numbers_add_up_to_the_degrees_of_freedom() {
    let lines = [
        (0, 1, 1.0, 2.0),
        (1, 2, 1.0, 3.0),
        (0, 2, 2.001, 1.0),
        (0, 2, 1.999, 4.0),
    ];
    let (net, adjusted) = levelled(3, &[(0, 0.0)], &lines);
    let sum: f64 = adjusted
        .links
        .iter()
        .flatten()
        .map(|link| link.redundancy)
        .sum();
    close(sum, 2.0, 1e-9);
    assert_eq!(adjusted.agreement.freedom, 2);
    let (mean, spread) = adjusted.distance(PointId(0), PointId(2)).unwrap();
    close(mean, adjusted.links[2].unwrap().adjusted, 1e-9);
    close(spread, adjusted.links[2].unwrap().spread, 1e-9);
    assert_eq!(net.links.len(), adjusted.links.len());
}
