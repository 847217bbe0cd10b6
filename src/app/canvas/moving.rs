//! The motion of the bay as it is played: through the poses one after the other, each from the neutral
//! one and back.

/// What pose is shown just now.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Posed {
    /// Its place among the poses.
    pub pose: usize,
    /// How much of the way from the neutral pose, 0 to 1.
    pub share: f64,
}

/// The motion that is shown.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Moving {
    /// Whether it goes on by itself.
    pub plays: bool,
    /// Poses gone through, from the first that is not neutral.
    phase: f64,
}

/// From the neutral pose to another and back, seconds.
const ROUND_S: f64 = 2.4;

impl Moving {
    /// Played from the beginning.
    pub fn played() -> Self {
        Self { plays: true, phase: 0.0 }
    }

    /// Stopped in a pose.
    pub fn at(pose: usize) -> Self {
        Self { plays: false, phase: pose.max(1) as f64 - 0.5 }
    }

    /// What is shown, of `count` poses with the neutral one.
    pub fn posed(self, count: usize) -> Option<Posed> {
        let moved = count.checked_sub(1).filter(|moved| *moved > 0)?;
        let phase = self.phase.rem_euclid(moved as f64);
        let share = (std::f64::consts::PI * phase.fract()).sin().powi(2);
        Some(Posed { pose: (phase as usize).min(moved - 1) + 1, share })
    }

    /// Some time later.
    #[must_use]
    pub fn after(self, seconds: f64, count: usize) -> Self {
        let moved = count.saturating_sub(1).max(1) as f64;
        let phase = if self.plays {
            (self.phase + seconds.clamp(0.0, 0.1) / ROUND_S).rem_euclid(moved)
        } else {
            self.phase
        };
        Self { phase, ..self }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_pose_is_reached_in_full_and_left_again() {
        for pose in 1..=4 {
            let posed = Moving::at(pose).posed(5).unwrap();
            assert_eq!((posed.pose, posed.share), (pose, 1.0));
        }
        assert_eq!(Moving::at(1).posed(1), None, "nothing moves");
        let mut moving = Moving::played();
        let mut seen = [0.0_f64; 5];
        for _ in 0..1000 {
            moving = moving.after(0.016, 5);
            let posed = moving.posed(5).unwrap();
            seen[posed.pose] = seen[posed.pose].max(posed.share);
        }
        assert_eq!(seen[0], 0.0);
        assert!(seen[1..].iter().all(|most| *most > 0.99), "{seen:?}");
    }
}
