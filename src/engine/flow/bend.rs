//! What a bend takes.

use std::f64::consts::PI;

/// The loss coefficient of a bend in two parts, in velocity heads.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BendLoss {
    /// Wall friction of its arc, `f α r/d`: counted with the length of the hose.
    pub arc: f64,
    /// What the bend adds to that.
    pub beyond: f64,
}

/// A smooth round bend of the angle α at the friction factor f, its centre-line radius r over the bore d:
/// Rennels (2012),
///
/// `K = f α r/d + (0.10 + 2.4 f) sin(α/2) + 6.6 f (√sin(α/2) + sin(α/2)) / (r/d)^(4α/π)`.
///
/// For `radius_over_bore` above 0 and angles from 0 to π.
pub fn bend_loss(friction_factor: f64, angle_rad: f64, radius_over_bore: f64) -> BendLoss {
    let f = friction_factor;
    let sine = (angle_rad / 2.0).sin().max(0.0);
    let sharp = (sine.sqrt() + sine) / radius_over_bore.powf(4.0 * angle_rad / PI);
    BendLoss {
        arc: f * angle_rad * radius_over_bore,
        beyond: (0.10 + 2.4 * f) * sine + 6.6 * f * sharp,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_bend_takes_nothing() {
        assert_eq!(bend_loss(0.02, 0.0, 4.0), BendLoss { arc: 0.0, beyond: 0.0 });
    }

    #[test]
    fn a_sharper_bend_takes_more_beyond_its_arc() {
        let beyond = |radius| bend_loss(0.02, PI / 2.0, radius).beyond;
        assert!(beyond(1.0) > beyond(2.0) && beyond(2.0) > beyond(10.0));
    }
}
