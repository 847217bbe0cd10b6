//! Angles: exact quarter turns, and the length a fillet saves.

/// Sine and cosine of an angle in degrees, exact at every multiple of 90°, so that a 90° elbow is
/// square and a straight end straight to the last bit.
pub fn sin_cos_deg(degrees: f64) -> (f64, f64) {
    let turn = degrees.rem_euclid(360.0);
    let quarter = (turn / 90.0).round();
    let (sin, cos) = (turn - 90.0 * quarter).to_radians().sin_cos();
    match quarter as i64 % 4 {
        0 => (sin, cos),
        1 => (cos, -sin),
        2 => (-sin, -cos),
        _ => (-cos, sin),
    }
}

/// Up to this angle the series of [`half_angle_excess`] is used.
pub(super) const SERIES_BELOW: f64 = 0.05;

/// `2 tan(θ/2) − θ` for θ in [0, π): what a fillet of unit radius is shorter than its corner.
///
/// For small angles the difference loses its digits; there the series θ³/12 + θ⁵/120 + 17 θ⁷/20160
/// + 31 θ⁹/362880 (Taylor, tan) is used, with a relative remainder below 1e-14.
pub fn half_angle_excess(theta: f64) -> f64 {
    if theta > SERIES_BELOW {
        return 2.0 * (theta / 2.0).tan() - theta;
    }
    let square = theta * theta;
    let series = 17.0 / 20160.0 + square * 31.0 / 362_880.0;
    theta * square * (1.0 / 12.0 + square * (1.0 / 120.0 + square * series))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn quarter_turns_are_exact() {
        assert_eq!(sin_cos_deg(0.0), (0.0, 1.0));
        assert_eq!(sin_cos_deg(90.0), (1.0, -0.0));
        assert_eq!(sin_cos_deg(180.0), (-0.0, -1.0));
        assert_eq!(sin_cos_deg(-90.0), (-1.0, 0.0));
        assert_eq!(sin_cos_deg(450.0).0, 1.0);
    }

    #[test]
    fn other_angles_agree_with_the_library() {
        for tenth in -7200..7200 {
            let degrees = f64::from(tenth) / 10.0 + 0.037;
            let (sin, cos) = sin_cos_deg(degrees);
            assert!((sin - degrees.to_radians().sin()).abs() < 1e-13, "{degrees}");
            assert!((cos - degrees.to_radians().cos()).abs() < 1e-13, "{degrees}");
        }
    }

    #[test]
    fn series_and_closed_form_meet() {
        for theta in [0.049_999, 0.050_001] {
            let direct = 2.0 * f64::tan(theta / 2.0) - theta;
            assert!((half_angle_excess(theta) / direct - 1.0).abs() < 1e-11);
        }
        assert_eq!(half_angle_excess(0.0), 0.0);
    }
}
