//! A route in space as a bend table for a wire: straight, turn, bend, in the order of bending from end A.
//!
//! The figures are rounded to steps that a bench can keep to; each is chosen against the wire as the rounded
//! figures before it make it, so that errors do not add up, and the finished table is bent again, in
//! numbers, and laid beside the route: how far it strays is a figure of the table.

mod choose;
mod drawn;
mod stray;

use glam::DVec3;

use crate::geom::{CentreLine, Piece};
use crate::units::LengthUnit;
use drawn::Route;

/// A wire may stray so far from the route, mm; where it does, the figures get finer.
pub const STRAY_MM: f64 = 0.5;

/// What the figures are rounded to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Step {
    /// Lengths and radii.
    pub mm: f64,
    /// Angles.
    pub deg: f64,
}

/// From coarse to fine: 1 mm and 1° are what a bench keeps to.
const STEPS_MM: [Step; 3] =
    [Step { mm: 1.0, deg: 1.0 }, Step { mm: 0.5, deg: 0.5 }, Step { mm: 0.1, deg: 0.1 }];
/// The same in 1/16, 1/32 and 1/64 in.
const STEPS_INCH: [Step; 3] = [
    Step { mm: 25.4 / 16.0, deg: 1.0 },
    Step { mm: 25.4 / 32.0, deg: 0.5 },
    Step { mm: 25.4 / 64.0, deg: 0.1 },
];

/// One bend, with the straight before it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TableBend {
    /// Straight wire from the bend before it, from cut end A for the first.
    pub straight_mm: f64,
    /// From the side that the bend before it opens to, to the side that this one opens to: clockwise, looking
    /// along the straight from end A. (−180, 180]; 0 for the first.
    pub turn_deg: f64,
    /// How far it bends, above 0.
    pub bend_deg: f64,
    /// Radius to the middle of the wire; 0 where the route has no room for one.
    pub radius_mm: f64,
}

impl TableBend {
    /// Wire that the bend takes.
    fn arc_mm(&self) -> f64 {
        self.radius_mm * self.bend_deg.to_radians()
    }
}

/// A bend table.
#[derive(Debug, Clone, PartialEq)]
pub struct BendTable {
    /// In the order of bending.
    pub bends: Vec<TableBend>,
    /// Straight wire after the last bend, to cut end B.
    pub tail_mm: f64,
    /// What its figures are rounded to.
    pub step: Step,
    /// How far the wire strays from the drawn route at most, held to it at cut end A.
    pub stray_mm: f64,
    /// The same at the coarsest step.
    pub coarse_stray_mm: f64,
}

/// Where a wire begins: at cut end A, along the hose, the first bend opening to one side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WireStart {
    /// Cut end A.
    pub at: DVec3,
    /// The way the hose leaves, a unit vector.
    pub direction: DVec3,
    /// The side that the first bend opens to; at right angles to that.
    pub side: DVec3,
}

impl BendTable {
    /// The table of a route, in steps of a unit.
    pub fn new(line: &CentreLine, unit: LengthUnit) -> Self {
        let route = Route::of(line);
        let [coarse, finer @ ..] = match unit {
            LengthUnit::Mm => STEPS_MM,
            LengthUnit::Inch => STEPS_INCH,
        };
        let mut best = Self::rounded(line, &route, coarse);
        for step in finer {
            if best.stray_mm <= STRAY_MM {
                break;
            }
            let next = Self::rounded(line, &route, step);
            // Finer figures that fit no better are no gain.
            if next.stray_mm < best.stray_mm {
                best = Self { coarse_stray_mm: best.coarse_stray_mm, ..next };
            }
        }
        best
    }

    fn rounded(line: &CentreLine, route: &Route, step: Step) -> Self {
        let (bends, tail_mm) = choose::figures(route, step);
        let mut table = Self { bends, tail_mm, step, stray_mm: 0.0, coarse_stray_mm: 0.0 };
        table.stray_mm = stray::between(line, &table.rebuilt(route.start));
        table.coarse_stray_mm = table.stray_mm;
        table
    }

    /// The wire as the table bends it, each piece with its distance from cut end A.
    pub fn rebuilt(&self, start: WireStart) -> Vec<(f64, Piece)> {
        let mut wire = Wire { start, length: 0.0, pieces: Vec::new() };
        for bend in &self.bends {
            wire.straight(bend.straight_mm);
            wire.bend(bend);
        }
        wire.straight(self.tail_mm);
        wire.pieces
    }

    /// Where each bend begins and ends along the straight wire.
    pub fn marks(&self) -> Vec<[f64; 2]> {
        let mut at = 0.0;
        let mark = |bend: &TableBend| {
            let from = at + bend.straight_mm;
            at = from + bend.arc_mm();
            [from, at]
        };
        self.bends.iter().map(mark).collect()
    }

    /// Length of the wire.
    pub fn length_mm(&self) -> f64 {
        self.bends.iter().map(|bend| bend.straight_mm + bend.arc_mm()).sum::<f64>() + self.tail_mm
    }
}

impl WireStart {
    /// Where the wire of a route begins.
    pub fn of(line: &CentreLine) -> Self {
        Route::of(line).start
    }

    /// Straight on.
    fn moved(self, mm: f64) -> Self {
        Self { at: self.at + self.direction * mm, ..self }
    }

    /// Turned about the wire, clockwise looking along it.
    fn turned(self, deg: f64) -> Self {
        let (sin, cos) = deg.to_radians().sin_cos();
        let side = self.side * cos + self.direction.cross(self.side) * sin;
        Self { side, ..self }
    }

    /// The arc that bends to the side, and where it leads.
    fn bent(self, angle: f64, radius: f64) -> (Piece, Self) {
        let Self { at, direction, side } = self;
        let arc = Piece::Arc { start: at, direction, inward: side, radius, angle };
        let (sin, cos) = angle.sin_cos();
        let to = Self {
            at: at + radius * (sin * direction + (1.0 - cos) * side),
            direction: (cos * direction + sin * side).normalize_or(direction),
            side: (cos * side - sin * direction).normalize_or(side),
        };
        (arc, to)
    }
}

struct Wire {
    start: WireStart,
    length: f64,
    pieces: Vec<(f64, Piece)>,
}

impl Wire {
    fn straight(&mut self, mm: f64) {
        if mm > 0.0 {
            let WireStart { at, direction, .. } = self.start;
            self.pieces.push((self.length, Piece::Line { start: at, direction, length: mm }));
            self.start = self.start.moved(mm);
            self.length += mm;
        }
    }

    fn bend(&mut self, bend: &TableBend) {
        let (arc, to) =
            self.start.turned(bend.turn_deg).bent(bend.bend_deg.to_radians(), bend.radius_mm);
        if bend.radius_mm > 0.0 {
            self.pieces.push((self.length, arc));
            self.length += bend.arc_mm();
        }
        self.start = to;
    }
}
