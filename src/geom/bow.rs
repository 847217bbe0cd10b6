//! The bow of a springy line held in line at both ends: the first clamped elastica, in closed form.

use std::f64::consts::FRAC_PI_2;

/// The shape a span settles in when it is longer than the way between its ends.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bow {
    /// Least radius, at the ends and at the crown.
    pub radius: f64,
    /// Farthest from the straight line.
    pub height: f64,
}

/// Most slack, as a share of the span, that [`in_line_bow`] answers for: beyond it the bow may leave
/// its plane, and this planar form does not hold.
pub const BOW_SLACK_MAX: f64 = 0.15;

/// The bow of a line of least bending energy ∫κ² ds, of length `span·(1 + slack)`, held at both ends
/// in the direction of the straight line between them; `slack` is a share, not per cent.
///
/// With modulus k and the complete elliptic integrals K and E (Euler's elastica; the inflections lie
/// a quarter of the length from either end): slack = K/(2E − K) − 1, radius = span/(8k(2E − K)),
/// height = span·k/(2E − K).
///
/// None for a slack that is not within 0 and [`BOW_SLACK_MAX`] (0 excluded: the line is straight)
/// and for a span that is not above 0.
pub fn in_line_bow(span: f64, slack: f64) -> Option<Bow> {
    if !(slack > 0.0 && slack <= BOW_SLACK_MAX && span > 0.0) {
        return None;
    }
    // Slack grows with the modulus: bisection, to the last bit.
    let (mut low, mut high) = (0.0_f64, 0.8_f64);
    for _ in 0..60 {
        let middle = f64::midpoint(low, high);
        let (k, e) = complete_elliptic(middle);
        if k / (2.0 * e - k) - 1.0 < slack {
            low = middle;
        } else {
            high = middle;
        }
    }
    let modulus = f64::midpoint(low, high);
    let (k, e) = complete_elliptic(modulus);
    let chord = 2.0 * e - k;
    Some(Bow { radius: span / (8.0 * modulus * chord), height: span * modulus / chord })
}

/// K and E of modulus `k` in [0, 1), by the arithmetic-geometric mean (Abramowitz & Stegun 17.6),
/// to rounding.
fn complete_elliptic(k: f64) -> (f64, f64) {
    let (mut a, mut b, mut c) = (1.0_f64, (1.0 - k * k).sqrt(), k);
    let mut sum = c * c / 2.0;
    let mut weight = 1.0;
    while c.abs() > 1e-16 {
        (a, b, c) = (f64::midpoint(a, b), (a * b).sqrt(), (a - b) / 2.0);
        sum += weight * c * c;
        weight *= 2.0;
    }
    let first = FRAC_PI_2 / a;
    (first, first * (1.0 - sum))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lemniscate_constants() {
        // k² = 1/2: K = Γ(1/4)²/(4√π), 2E − K = 2π^1.5/Γ(1/4)² (Legendre relation).
        let (k, e) = complete_elliptic(0.5_f64.sqrt());
        assert!((k - 1.854_074_677_301_371_9).abs() < 1e-14);
        assert!((2.0 * e - k - 0.847_213_084_793_979_2).abs() < 1e-14);
    }

    #[test]
    fn radius_of_three_slacks_by_an_outside_solver() {
        // elastica.json, cases slack_0.01, slack_0.05, slack_0.15 (scipy 1.17.1).
        for (slack, ratio) in [
            (0.01, 0.806_238_349_228_995_1),
            (0.05, 0.379_448_251_106_005_6),
            (0.15, 0.247_008_223_385_375_95),
        ] {
            let bow = in_line_bow(1.0, slack).unwrap();
            assert!((bow.radius - ratio).abs() < 1e-9, "{slack}: {}", bow.radius);
        }
    }

    #[test]
    fn it_grows_with_the_span() {
        let (one, many) = (in_line_bow(1.0, 0.03).unwrap(), in_line_bow(250.0, 0.03).unwrap());
        assert!((many.radius - 250.0 * one.radius).abs() < 1e-9);
        assert!((many.height - 250.0 * one.height).abs() < 1e-9);
    }

    #[test]
    fn what_it_does_not_answer() {
        for (span, slack) in
            [(0.0, 0.05), (-1.0, 0.05), (1.0, 0.0), (1.0, -0.1), (1.0, 0.151), (1.0, f64::NAN)]
        {
            assert_eq!(in_line_bow(span, slack), None, "{span} {slack}");
        }
    }
}
