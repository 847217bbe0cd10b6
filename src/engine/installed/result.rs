//! The installed shape of a run.

use std::sync::Arc;

use glam::DVec3;

use crate::geom::Piece;
use crate::geom::rod::{RodError, RodForm, RodShape, RodSpan, Tie};

/// How a whole hose lies, from `E_A` to `E_B`. Distances along it count the hose that is there, from
/// cut end A (the slack in).
#[derive(Debug, Clone, PartialEq)]
pub struct InstalledRun {
    /// The cut length it was solved for.
    pub cut_length_mm: f64,
    /// Its free lengths, in order; those of no length are left out.
    pub spans: Vec<InstalledSpan>,
    /// Tightest place, on the centre line; none where nothing bends.
    pub tightest: Option<Tightest>,
    /// ∫κ² ds, 1/mm.
    pub bending_energy_1_per_mm: f64,
    /// Farthest from the drawn centre line.
    pub bulge: Bulge,
    /// Straights and arcs within [`CHAIN_ACCURACY_MM`](super::CHAIN_ACCURACY_MM) of it, each with the
    /// distance of its start along the hose: what clearance is measured on.
    pub pieces: Vec<(f64, Piece)>,
    /// Points along it for drawing and report, ends included.
    pub points: Arc<Vec<DVec3>>,
}

impl InstalledRun {
    /// Tightest radius; none where nothing bends.
    pub fn min_radius_mm(&self) -> Option<f64> {
        self.tightest.map(|tightest| tightest.radius_mm)
    }

    /// Whether every span was solved; where one was not, the drawn route stands for it.
    pub fn is_whole(&self) -> bool {
        self.spans.iter().all(|span| span.shape.is_some())
    }
}

/// The tightest place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tightest {
    /// Radius of the centre line.
    pub radius_mm: f64,
    /// Along the hose.
    pub at_mm: f64,
    /// In the bay.
    pub point: DVec3,
    /// Place in [`InstalledRun::spans`].
    pub span: usize,
}

/// The place farthest from the drawn centre line.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Bulge {
    /// How far.
    pub mm: f64,
    /// Along the hose.
    pub at_mm: f64,
    /// In the bay.
    pub point: DVec3,
}

/// The installed shape of one free length.
#[derive(Debug, Clone, PartialEq)]
pub struct InstalledSpan {
    /// What was solved.
    pub held: RodSpan,
    /// Where it begins, along the hose.
    pub from_mm: f64,
    /// Where it begins on the drawn centre line.
    pub drawn_from_mm: f64,
    /// Where it ends on the drawn centre line.
    pub drawn_to_mm: f64,
    /// Its shape; none where it could not be solved and the drawn route stands for it.
    pub shape: Option<RodShape>,
    /// What is to be said about it.
    pub notes: Vec<SpanNote>,
}

/// What is to be said about a span.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum SpanNote {
    /// It could not be solved: the drawn route stands for it.
    NotSolved(RodError),
    /// Other shapes are as good; the one that hangs lowest was taken.
    Tie,
    /// A mirror image is as good; the one on the side of the drawn route was taken.
    TwinAcross,
    /// Hardly checked against moving one way: near to snapping over, or bowing almost any way round.
    Soft,
    /// The shape it had before is not stable any more: it snaps over to this one.
    Snapped,
    /// Nearly taut: found by the closed form of two bends and a straight.
    NearlyTaut,
    /// Found on more pieces than usual, as many as given.
    Refined(u32),
    /// The estimated error of the radius or the energy, a share, where it is above what an installed shape is to
    /// hold.
    Inexact(f64),
}

impl InstalledSpan {
    /// Where it ends, along the hose.
    pub fn to_mm(&self) -> f64 {
        self.from_mm + self.held.length
    }

    /// The shapes that are as good as the one taken: mirror images, or for a span that bows any way
    /// round as many as `samples` others, evenly turned.
    pub fn alternatives(&self, samples: u32) -> Vec<RodShape> {
        let Some(shape) = &self.shape else { return Vec::new() };
        match shape.tie {
            Tie::None => Vec::new(),
            Tie::Twins(twins) => {
                twins.iter().flatten().map(|twin| twin.image(&self.held, shape)).collect()
            }
            Tie::AnyWayRound { axis } => {
                let step = std::f64::consts::TAU / f64::from(samples.saturating_add(1));
                (1..=samples).map(|k| shape.turned(axis, step * f64::from(k))).collect()
            }
        }
    }

    /// The notes that follow from the shape alone.
    pub(super) fn note_shape(&mut self) {
        let Some(shape) = &self.shape else { return };
        let notes = &mut self.notes;
        match shape.tie {
            Tie::None => {}
            Tie::Twins(_) if shape.how.kept_side => notes.push(SpanNote::TwinAcross),
            Tie::Twins(_) | Tie::AnyWayRound { .. } => notes.push(SpanNote::Tie),
        }
        if shape.is_soft {
            notes.push(SpanNote::Soft);
        }
        if shape.how.form == RodForm::Taut {
            notes.push(SpanNote::NearlyTaut);
        }
        if shape.how.pieces as usize > crate::geom::rod::ROD_PIECES {
            notes.push(SpanNote::Refined(shape.how.pieces));
        }
        // What an installed shape is to hold: energy within 0.2 %, radius within 0.5 %.
        if shape.error.energy > 2e-3 || shape.error.radius > 5e-3 {
            notes.push(SpanNote::Inexact(shape.error.energy.max(shape.error.radius)));
        }
    }
}
