//! The three views and how a point in the bay comes to lie in each.

use glam::{DVec2, DVec3};

/// A view of the bay (axes of ISO 8855: X forward, Y left, Z up).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum View {
    /// From above, X to the right, Y up.
    Plan,
    /// From the vehicle's right, X to the right, Z up.
    Side,
    /// From ahead, Y to the right, Z up.
    Front,
}

impl View {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Plan, Self::Side, Self::Front];

    /// The view of this word: `plan`, `side` or `front`.
    pub fn of(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|view| view.word() == word)
    }

    /// Its word in calls and file names.
    pub fn word(self) -> &'static str {
        match self {
            Self::Plan => "plan",
            Self::Side => "side",
            Self::Front => "front",
        }
    }

    /// Its name and where it is seen from.
    pub(crate) fn name(self) -> &'static str {
        match self {
            Self::Plan => "plan",
            Self::Side => "side, from the right",
            Self::Front => "front",
        }
    }

    /// The axes that run across and up.
    pub(crate) fn axes(self) -> [usize; 2] {
        match self {
            Self::Plan => [0, 1],
            Self::Side => [0, 2],
            Self::Front => [1, 2],
        }
    }

    /// Across and up, bay mm.
    pub fn flat(self, p: DVec3) -> DVec2 {
        let [across, up] = self.axes();
        DVec2::new(p[across], p[up])
    }

    /// The unit vector from the bay to the eye.
    pub(crate) fn towards_eye(self) -> DVec3 {
        match self {
            Self::Plan => DVec3::Z,
            Self::Side => DVec3::NEG_Y,
            Self::Front => DVec3::X,
        }
    }

    /// How near the eye a point is; greater is nearer.
    pub fn nearness(self, p: DVec3) -> f64 {
        p.dot(self.towards_eye())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_view_is_right_handed_towards_the_eye() {
        // Across × up points at the eye: no view is mirrored.
        for view in View::ALL {
            let unit =
                |axis: usize| DVec3::from_array([0, 1, 2].map(|i| f64::from(i == axis as u8)));
            let axes: Vec<DVec3> = (0..3).map(unit).collect();
            let across: DVec3 = axes.iter().map(|a| *a * view.flat(*a).x).sum();
            let up: DVec3 = axes.iter().map(|a| *a * view.flat(*a).y).sum();
            let eye: DVec3 = axes.iter().map(|a| *a * view.nearness(*a)).sum();
            assert_eq!(across.cross(up), eye, "{}", view.name());
        }
    }
}
