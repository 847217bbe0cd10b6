//! Proportions of end fittings that no public document gives: elbows and socket lengths. Typical
//! only; whoever builds measures his own, and every figure made here is marked so.

use crate::model::{EndSize, Mark, Source};
use crate::units::Length;

use super::tube_outside_mm;

/// Where the dimensions of the built-in elbows come from.
pub(super) const ELBOW: Source = Source::fixed(
    Mark::Typical,
    "tube bent to twice its diameter between the halves of a straight end; no published source",
);

/// Bend radius of an elbow's tube, in tube diameters.
const RADIUS_IN_DIAMETERS: f64 = 2.0;
/// Typical figures pretend to no more than this, mm.
const STEP_MM: f64 = 0.5;

/// Socket length as a length and a share of the tube's diameter.
#[derive(Clone, Copy)]
pub(super) struct SocketProportion {
    pub(super) base_mm: f64,
    pub(super) diameters: f64,
}

impl SocketProportion {
    fn socket_mm(self, dash: u32) -> f64 {
        to_step(self.base_mm + self.diameters * tube_outside_mm(dash))
    }
}

/// The straight end of one dash number with its published set-back, and the elbows of 45° and 90°
/// made from it.
pub(super) fn straight_and_elbows(
    dash: u32,
    set_back_in: f64,
    socket: SocketProportion,
) -> [EndSize; 3] {
    let set_back_mm = Length::from_inches(set_back_in).mm();
    let socket_mm = socket.socket_mm(dash);
    let size = |angle_deg: f64, along_mm: f64, across_mm: f64| EndSize {
        dash,
        angle_deg,
        along_mm,
        across_mm,
        socket_mm,
        ..EndSize::default()
    };
    let elbow = |angle_deg: f64| {
        let (along, across) = bent_tube(angle_deg, set_back_mm / 2.0, tube_outside_mm(dash));
        size(angle_deg, to_step(along), to_step(across))
    };
    [size(0.0, set_back_mm, 0.0), elbow(45.0), elbow(90.0)]
}

/// Along and across from the seat to the exit of a tube with a straight `leg` at both ends of its
/// bend. At 0° it is a straight end of two legs.
fn bent_tube(angle_deg: f64, leg: f64, diameter: f64) -> (f64, f64) {
    let radius = RADIUS_IN_DIAMETERS * diameter;
    let (sin, cos) = angle_deg.to_radians().sin_cos();
    (leg + radius * sin + leg * cos, radius * (1.0 - cos) + leg * sin)
}

fn to_step(mm: f64) -> f64 {
    (mm / STEP_MM).round() * STEP_MM
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn without_a_bend_the_elbow_is_the_straight_end() {
        let (along, across) = bent_tube(0.0, 10.0, 9.525);
        assert_eq!((along, across), (20.0, 0.0));
    }

    #[test]
    fn a_square_elbow_is_as_long_either_way() {
        let (along, across) = bent_tube(90.0, 10.0, 9.525);
        assert!((along - 29.05).abs() < 1e-9 && (across - 29.05).abs() < 1e-9);
    }

    #[test]
    fn size_six_by_hand() {
        // 3/8 in tube: radius 19.05; leg 0.405 in = 10.287.
        let socket = SocketProportion { base_mm: 12.0, diameters: 1.25 };
        let [straight, forty_five, square] = straight_and_elbows(6, 0.81, socket);
        assert!((straight.along_mm - 20.574).abs() < 1e-9);
        assert_eq!(straight.socket_mm, 24.0);
        // 10.287 + (19.05 + 10.287)·0.70711 = 31.03; 19.05·0.29289 + 10.287·0.70711 = 12.85.
        assert_eq!((forty_five.along_mm, forty_five.across_mm), (31.0, 13.0));
        assert_eq!((square.along_mm, square.across_mm), (29.5, 29.5));
    }
}
