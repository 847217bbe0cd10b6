//! Fractions of an inch: to show, and the single characters that stand for one.

use super::MINUS;

/// The finest step shown, and the step of the bench rule.
pub(super) const STEPS_PER_INCH: f64 = 16.0;

/// Sixteenths as "12 3/8", "3/8", "12", "0", "−1 1/2": reduced, whole inches carried.
pub(super) fn sixteenths_text(sixteenths: i64) -> String {
    steps_text(sixteenths, 16)
}

/// The same of steps of which `per_inch` (a power of two) make an inch.
pub(super) fn steps_text(steps: i64, per_inch: u64) -> String {
    let count = steps.unsigned_abs();
    let (whole, rest) = (count / per_inch, count % per_inch);
    let sign = if steps < 0 { MINUS.to_string() } else { String::new() };
    if rest == 0 {
        return format!("{sign}{whole}");
    }
    let shared = 1 << rest.trailing_zeros();
    let (top, bottom) = (rest / shared, per_inch / shared);
    if whole == 0 {
        format!("{sign}{top}/{bottom}")
    } else {
        format!("{sign}{whole} {top}/{bottom}")
    }
}

/// The value of a character such as `⅜` (Unicode's vulgar fractions that name a number).
pub(super) fn vulgar(c: char) -> Option<f64> {
    let (top, bottom) = match c {
        '½' => (1.0, 2.0),
        '⅓' => (1.0, 3.0),
        '⅔' => (2.0, 3.0),
        '¼' => (1.0, 4.0),
        '¾' => (3.0, 4.0),
        '⅕' => (1.0, 5.0),
        '⅖' => (2.0, 5.0),
        '⅗' => (3.0, 5.0),
        '⅘' => (4.0, 5.0),
        '⅙' => (1.0, 6.0),
        '⅚' => (5.0, 6.0),
        '⅐' => (1.0, 7.0),
        '⅛' => (1.0, 8.0),
        '⅜' => (3.0, 8.0),
        '⅝' => (5.0, 8.0),
        '⅞' => (7.0, 8.0),
        '⅑' => (1.0, 9.0),
        '⅒' => (1.0, 10.0),
        _ => return None,
    };
    Some(top / bottom)
}

#[cfg(test)]
mod tests {
    use super::sixteenths_text;

    #[test]
    fn sixteenths_are_reduced_and_carried() {
        for (count, text) in [
            (0, "0"),
            (1, "1/16"),
            (2, "1/8"),
            (4, "1/4"),
            (8, "1/2"),
            (15, "15/16"),
            (16, "1"),
            (198, "12 3/8"),
            (-24, "\u{2212}1 1/2"),
            (-1, "\u{2212}1/16"),
        ] {
            assert_eq!(sixteenths_text(count), text);
        }
    }
}
