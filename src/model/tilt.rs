//! How far a vehicle or boat tilts in service.

use glam::DVec3;

use super::Extra;

/// Least and greatest tilt, degrees, about the axes of ISO 8855: pitch about Y, positive with the bow or
/// bonnet down; roll about X, positive with the left side up.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Tilt {
    /// About Y; least and greatest.
    pub pitch_deg: [f64; 2],
    /// About X; least and greatest.
    pub roll_deg: [f64; 2],
    /// Unknown keys.
    pub extra: Extra,
}

/// One way of standing: pitch and roll, degrees.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Stance {
    /// See [`Tilt::pitch_deg`].
    pub pitch_deg: f64,
    /// See [`Tilt::roll_deg`].
    pub roll_deg: f64,
}

impl Stance {
    /// Straight up, in the axes of the bay: the third row of the rotation by pitch, then roll.
    pub fn up(self) -> DVec3 {
        let (sin_pitch, cos_pitch) = self.pitch_deg.to_radians().sin_cos();
        let (sin_roll, cos_roll) = self.roll_deg.to_radians().sin_cos();
        DVec3::new(-sin_pitch, cos_pitch * sin_roll, cos_pitch * cos_roll)
    }

    /// Whether it stands level.
    pub fn is_level(self) -> bool {
        self == Self::default()
    }
}

impl Tilt {
    /// Level, and every combination of the extremes, each once.
    pub fn stances(tilt: Option<&Self>) -> Vec<Stance> {
        let mut stances = vec![Stance::default()];
        let Some(tilt) = tilt else { return stances };
        for pitch_deg in tilt.pitch_deg {
            for roll_deg in tilt.roll_deg {
                let stance = Stance { pitch_deg, roll_deg };
                if !stances.contains(&stance) {
                    stances.push(stance);
                }
            }
        }
        stances
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn up_follows_the_signs_of_iso_8855() {
        let up = |pitch_deg, roll_deg| Stance { pitch_deg, roll_deg }.up();
        assert_eq!(up(0.0, 0.0), DVec3::Z);
        // Bow down: whoever goes forward goes down. Left side up: whoever goes left goes up.
        assert!(up(10.0, 0.0).x < 0.0 && up(10.0, 0.0).y == 0.0);
        assert!(up(0.0, 10.0).y > 0.0 && up(0.0, 10.0).x == 0.0);
        assert!((up(10.0, 30.0).length() - 1.0).abs() < 1e-12);
    }

    #[test]
    fn level_and_four_corners_each_once() {
        let tilt = Tilt { pitch_deg: [-10.0, 10.0], roll_deg: [-30.0, 30.0], ..Tilt::default() };
        assert_eq!(Tilt::stances(Some(&tilt)).len(), 5);
        assert_eq!(Tilt::stances(Some(&Tilt::default())).len(), 1);
        assert_eq!(Tilt::stances(None), [Stance::default()]);
    }
}
