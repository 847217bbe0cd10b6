//! A dimensioned sketch of an end fitting, in its own plane: what along, across and socket are measured
//! from and to. The cut end is inside the socket, so the socket is drawn in section.

mod layout;
mod paint;

use eframe::egui::{Role, Sense, Ui, Vec2, WidgetInfo, vec2};

use crate::engine::RunSolution;
use crate::geom::sin_cos_deg;
use crate::model::{Run, Side};

/// What is measured on an end fitting.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::app::panels) enum Dimension {
    Along,
    Across,
    Socket,
}

/// An end fitting in its plane, mm: the seat at the origin, the port's axis to the right, the side to
/// which an elbow turns up.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(in crate::app::panels) struct EndShape {
    angle_deg: f64,
    along: f64,
    across: f64,
    socket: f64,
    /// OD of the hose.
    outside: f64,
    /// Whether all of it is as typed or listed; else what is missing is in usual proportions.
    to_scale: bool,
}

/// Height of the sketch, points.
const STRAIGHT_HEIGHT: f32 = 146.0;
const ELBOW_HEIGHT: f32 = 216.0;

impl EndShape {
    /// The end of a run as typed, else as listed, else in usual proportions.
    pub(super) fn of(run: &Run, side: Side, solved: Option<&RunSolution>) -> Self {
        let end = run.end(side);
        let listed = solved.map(|solved| match side {
            Side::A => &solved.from.end,
            Side::B => &solved.to.end,
        });
        let outside = run.outside_mm.or(solved.map(|solved| solved.hose.outside_mm));
        let known = [
            end.along_mm.or(listed.map(|end| end.along_mm)),
            end.across_mm.or(listed.map(|end| end.across_mm)),
            end.socket_mm.or(listed.map(|end| end.socket_mm)),
        ];
        let outside = outside.filter(|mm| *mm > 0.0).unwrap_or_else(|| usual_outside(run.dash));
        let usual = Self::usual(end.angle_deg, outside);
        Self {
            along: known[0].unwrap_or(usual.along),
            across: known[1].unwrap_or(usual.across),
            socket: known[2].unwrap_or(usual.socket),
            to_scale: known.iter().all(Option::is_some),
            ..usual
        }
    }

    /// An end of the parts library: its angle, along, across and socket; what is 0 is not known yet.
    pub(in crate::app::panels) fn measured(angle_deg: f64, figures: [f64; 3], dash: u32) -> Self {
        let usual = Self::usual(angle_deg, usual_outside(dash));
        let [along, across, socket] = figures;
        let is_known = [along != 0.0, across != 0.0 || angle_deg == 0.0, socket != 0.0];
        Self {
            along: if is_known[0] { along } else { usual.along },
            across: if is_known[1] { across } else { usual.across },
            socket: if is_known[2] { socket } else { usual.socket },
            to_scale: is_known == [true; 3],
            ..usual
        }
    }

    /// An end in proportions that look like one: a tube bent to twice the hose's OD.
    fn usual(angle_deg: f64, outside: f64) -> Self {
        let (sin, cos) = sin_cos_deg(angle_deg);
        let (bend, leg) = (2.0 * outside, outside);
        Self {
            angle_deg,
            along: leg + bend * sin + leg * cos,
            across: bend * (1.0 - cos) + leg * sin,
            socket: 2.0 * outside,
            outside,
            to_scale: false,
        }
    }

    fn is_straight(&self) -> bool {
        self.angle_deg == 0.0 && self.across == 0.0
    }

    /// The way the hose leaves.
    fn direction(&self) -> Point {
        let (sin, cos) = sin_cos_deg(self.angle_deg);
        Point { x: cos, y: sin }
    }

    /// Where the hose was cut, bottomed in the socket.
    fn cut_end(&self) -> Point {
        Point { x: self.along, y: self.across }
    }

    /// Where the hose leaves the socket.
    fn mouth(&self) -> Point {
        self.cut_end().toward(self.direction(), self.socket)
    }

    fn said(&self) -> String {
        let across = "across from the port's axis to the middle of the cut end";
        let across = if self.is_straight() { String::new() } else { format!(", {across}") };
        format!(
            "Sketch of the end: along from the seat to the cut end inside the socket{across}, socket from \
             the cut end to the socket mouth"
        )
    }
}

/// OD of a hose of this size where nothing is known of it: its tube, and walls as thick as those of usual
/// hose. For the sketch alone.
fn usual_outside(dash: u32) -> f64 {
    f64::from(dash.max(1)) * 25.4 / 16.0 + 4.0
}

/// A place in the plane of the end, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Point {
    x: f64,
    y: f64,
}

impl Point {
    fn toward(self, direction: Self, by: f64) -> Self {
        Self { x: self.x + by * direction.x, y: self.y + by * direction.y }
    }

    /// A direction turned by a quarter to the right.
    fn right(self) -> Self {
        Self { x: self.y, y: -self.x }
    }
}

/// Shows the sketch; what is typed into now is lit.
pub(in crate::app::panels) fn show(ui: &mut Ui, shape: EndShape, lit: Option<Dimension>) {
    let height = if shape.is_straight() { STRAIGHT_HEIGHT } else { ELBOW_HEIGHT };
    let size: Vec2 = vec2(ui.available_width(), height);
    let (rect, response) = ui.allocate_exact_size(size, Sense::hover());
    response.widget_info(|| WidgetInfo::labeled(Role::Image, true, shape.said()));
    paint::sketch(ui, rect, &shape, lit);
}

#[cfg(test)]
mod tests {
    use super::*;

    fn end(angle_deg: f64, along: f64, across: f64) -> EndShape {
        EndShape { angle_deg, along, across, socket: 24.0, outside: 12.0, to_scale: true }
    }

    #[test]
    fn the_mouth_is_a_socket_beyond_the_cut_end() {
        assert_eq!(end(0.0, 21.0, 0.0).mouth(), Point { x: 45.0, y: 0.0 });
        assert_eq!(end(90.0, 21.0, 25.0).mouth(), Point { x: 21.0, y: 49.0 });
        let bent = end(45.0, 30.0, 14.0).mouth();
        let off = 24.0 * 0.5_f64.sqrt();
        assert!((bent.x - 30.0 - off).abs() < 1e-9 && (bent.y - 14.0 - off).abs() < 1e-9);
    }

    #[test]
    fn usual_proportions_are_straight_at_0_and_turn_back_at_180() {
        let straight = EndShape::usual(0.0, 12.0);
        assert!(straight.is_straight() && straight.along > 0.0);
        let back = EndShape::usual(180.0, 12.0);
        assert_eq!((back.along, back.across), (0.0, 48.0));
    }
}
