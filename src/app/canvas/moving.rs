//! The motion of the bay as it is played: through the positions one after the other, each from the drawn
//! one and back.

/// What position is shown just now.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Positioned {
    /// Its place among the positions.
    pub position: usize,
    /// How much of the way from the position as drawn, 0 to 1.
    pub share: f64,
}

/// The motion that is shown.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Moving {
    /// Whether it goes on by itself.
    pub plays: bool,
    /// Positions gone through, from the first that is not as drawn.
    phase: f64,
}

/// From the position as drawn to another and back, seconds.
const ROUND_S: f64 = 2.4;

impl Moving {
    /// Played from the beginning.
    pub fn played() -> Self {
        Self { plays: true, phase: 0.0 }
    }

    /// Stopped in a position.
    pub fn at(position: usize) -> Self {
        Self { plays: false, phase: position.max(1) as f64 - 0.5 }
    }

    /// What is shown, of `count` positions with the one as drawn.
    pub fn positioned(self, count: usize) -> Option<Positioned> {
        let moved = count.checked_sub(1).filter(|moved| *moved > 0)?;
        let phase = self.phase.rem_euclid(moved as f64);
        let share = (std::f64::consts::PI * phase.fract()).sin().powi(2);
        Some(Positioned { position: (phase as usize).min(moved - 1) + 1, share })
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
    fn each_position_is_reached_in_full_and_left_again() {
        for position in 1..=4 {
            let positioned = Moving::at(position).positioned(5).unwrap();
            assert_eq!((positioned.position, positioned.share), (position, 1.0));
        }
        assert_eq!(Moving::at(1).positioned(1), None, "nothing moves");
        let mut moving = Moving::played();
        let mut seen = [0.0_f64; 5];
        for _ in 0..1000 {
            moving = moving.after(0.016, 5);
            let positioned = moving.positioned(5).unwrap();
            seen[positioned.position] = seen[positioned.position].max(positioned.share);
        }
        assert_eq!(seen[0], 0.0);
        assert!(seen[1..].iter().all(|most| *most > 0.99), "{seen:?}");
    }
}
