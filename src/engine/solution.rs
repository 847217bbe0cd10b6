//! The finished figures of a bay. Derived, never stored: a [`Solution`] is made again from a bay.

use std::sync::Arc;

use glam::DVec3;

use crate::geom::{CentreLine, EndFrame};

use super::clearance::RoutingClearance;
use super::fittings::RoutingFittings;
use super::lay::{RoutingLay, RunLay};
use super::lengths::BenchStop;
use super::motion::{Positions, RunMotion};
use super::resolve::{Missing, ResolvedEnd, ResolvedHose};

/// Every routing of a bay, solved; in the order of `Bay::routings`.
#[derive(Debug, Clone, PartialEq)]
pub struct Solution {
    /// One for each routing.
    pub routings: Vec<RoutingSolution>,
}

/// One routing, solved; in the order of its runs.
#[derive(Debug, Clone, PartialEq)]
pub struct RoutingSolution {
    /// One for each run. `Err` where a reference of the run leads nowhere, which a loaded file
    /// cannot have; an edit in between can.
    pub runs: Vec<Result<Arc<RunSolution>, Missing>>,
    /// How near the drawn hoses come to obstacles and to each other.
    pub clearance: RoutingClearance,
    /// What their end fittings cut into, and nuts without room for a spanner.
    pub fittings: RoutingFittings,
    /// How they really lie; none where only the drawn routes were asked for.
    pub lay: Option<RoutingLay>,
    /// For each run what stops the length that the bench cuts; empty where that was not asked for.
    pub bench_stops: Vec<Option<BenchStop>>,
}

impl RoutingSolution {
    /// The solved run in this place, where it could be solved.
    pub fn run(&self, index: usize) -> Option<&RunSolution> {
        self.runs.get(index)?.as_deref().ok()
    }

    /// How the run in this place lies, where that was asked for.
    pub fn lay_of(&self, index: usize) -> Option<&RunLay> {
        self.lay.as_ref()?.runs.get(index)?.as_deref()
    }

    /// What stops the length that the bench cuts of the run in this place.
    pub fn bench_stop_of(&self, index: usize) -> Option<BenchStop> {
        *self.bench_stops.get(index)?
    }

    /// The run in this place in every position, where that was asked for.
    pub fn motion_of(&self, index: usize) -> Option<(&RunMotion, &Positions)> {
        let motion = self.lay.as_ref()?.motion.as_ref()?;
        Some((motion.runs.get(index)?.as_ref()?, &motion.positions))
    }
}

/// One hose, solved. Radii are centre-line radii; distances along the hose run from the cut end
/// `E_A` on the drawn centre line, where not said otherwise.
#[derive(Debug, Clone, PartialEq)]
pub struct RunSolution {
    /// The hose's figures in force.
    pub hose: ResolvedHose,
    /// End A.
    pub from: EndSolution,
    /// End B.
    pub to: EndSolution,
    /// The drawn centre line from `E_A` to `E_B`.
    pub centre_line: CentreLine,
    /// What makes each corner that really turns, and the radius it wants; [`Self::bends`] adds the
    /// figures that the centre line has.
    pub(super) corners: Box<[BentCorner]>,
    /// The clamps, in order.
    pub clamps: Box<[ClampMark]>,
    /// Stretches between held points (socket mouths, clamps), in order.
    pub spans: Box<[FreeSpan]>,
    /// Places in `Run::via` of corners that coincide with the point before them.
    pub coincident: Vec<u32>,
    /// Length of the drawn centre line.
    pub centreline_mm: f64,
    /// Slack added.
    pub slack_mm: f64,
    /// Centre line and slack: what to cut, before rounding up to the bench's step.
    pub cut_length_mm: f64,
    /// Seat to seat, along the hose laid straight.
    pub overall_mm: f64,
    /// Tightest bend; none where nothing bends.
    pub min_radius_mm: Option<f64>,
    /// The hose's limit at its centre line.
    pub radius_limit_mm: f64,
    /// Clock angle between two elbow ends, [0, 360); none unless both are elbows, and none where
    /// the hose turns straight back (the carrying-over is then not defined).
    pub clock_between_deg: Option<f64>,
    /// The cut length less the worst shortening under pressure of what the sockets do not grip.
    pub shortened_mm: f64,
    /// Straight from socket mouth to socket mouth, with both sockets: the hose may not be shorter.
    pub taut_limit_mm: f64,
}

impl RunSolution {
    /// The corners of the polyline that really turn, in order.
    pub fn bends(&self) -> Vec<Bend> {
        let corners = self.corners.iter().zip(self.centre_line.turns());
        corners
            .map(|(corner, turn)| Bend {
                place: corner.place,
                point: turn.middle,
                at_mm: turn.at,
                angle_deg: turn.angle.to_degrees(),
                radius_mm: turn.radius,
                wanted_mm: corner.wanted_mm,
            })
            .collect()
    }

    /// Slack in per cent of the drawn centre line; 0 where that has no length.
    pub fn slack_pct(&self) -> f64 {
        if self.centreline_mm > 0.0 { 100.0 * self.slack_mm / self.centreline_mm } else { 0.0 }
    }

    /// Whether the hose may be pulled tight (contract §4).
    pub fn is_taut(&self) -> bool {
        self.shortened_mm < self.taut_limit_mm - crate::units::EPS_MM
    }

    /// Where a place on the drawn centre line comes to lie on the cut hose, from cut end A: the
    /// slack goes to the free lengths that can take it (contract §5).
    pub fn on_bench_mm(&self, at_mm: f64) -> f64 {
        if self.spans.is_empty() {
            let share = if self.centreline_mm > 0.0 { at_mm / self.centreline_mm } else { 0.0 };
            return at_mm + self.slack_mm * share;
        }
        let gained: f64 = self
            .spans
            .iter()
            .map(|span| {
                let share = (at_mm - span.from_mm) / span.length_mm();
                span.slack_mm * share.clamp(0.0, 1.0)
            })
            .sum();
        at_mm + gained
    }

    /// The other way round: what place of the drawn centre line lies at `bench_mm` from cut end A.
    pub fn drawn_at_mm(&self, bench_mm: f64) -> f64 {
        if self.spans.is_empty() {
            let grown =
                if self.centreline_mm > 0.0 { self.slack_mm / self.centreline_mm } else { 0.0 };
            return bench_mm / (1.0 + grown);
        }
        let mut gained = 0.0;
        for span in &self.spans {
            let along = bench_mm - (span.from_mm + gained);
            let length = span.length_mm() + span.slack_mm;
            if along <= 0.0 {
                break;
            }
            if along < length {
                return span.from_mm + along * span.length_mm() / length;
            }
            gained += span.slack_mm;
        }
        bench_mm - gained
    }
}

/// One end of a solved run.
#[derive(Debug, Clone, PartialEq)]
pub struct EndSolution {
    /// Its dimensions in force and where they come from.
    pub end: ResolvedEnd,
    /// Its place and directions in the bay.
    pub frame: EndFrame,
    /// Distance from the cut end to the first corner, given or found.
    pub straight_mm: f64,
    /// Whether `straight_mm` was found by the engine.
    pub straight_is_found: bool,
    /// Set-back along the hose axis (contract §2).
    pub set_back_mm: f64,
    /// Where the grip ends and the hose comes out: `E + socket·e`.
    pub mouth: DVec3,
    /// Straight hose between the mouth and the bend beside this end, were it bent at the wanted
    /// radius; none where the corner beside it does not turn. Negative where the bend would begin
    /// inside the socket. The bend is the run's first for end A, its last for end B.
    pub straight_at_wanted_mm: Option<f64>,
}

/// What the centre line does not know of a corner.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct BentCorner {
    pub(super) place: BendPlace,
    pub(super) wanted_mm: f64,
}

/// One corner that turns.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bend {
    /// What makes the corner.
    pub place: BendPlace,
    /// Middle of the arc.
    pub point: DVec3,
    /// Middle of the arc, along the hose.
    pub at_mm: f64,
    /// Turning angle.
    pub angle_deg: f64,
    /// Radius that fits; 0 where there is no room.
    pub radius_mm: f64,
    /// Radius wanted.
    pub wanted_mm: f64,
}

/// What makes a corner of the polyline.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BendPlace {
    /// The straight of end A.
    StraightA,
    /// The straight of end B.
    StraightB,
    /// A corner, by its place in `Run::via`.
    Corner(u32),
    /// The corner before a clamp, by the clamp's place in `Run::via`.
    BeforeClamp(u32),
    /// The corner after a clamp, by the clamp's place in `Run::via`.
    AfterClamp(u32),
}

/// A clamp on the hose.
#[derive(Debug, Clone, PartialEq)]
pub struct ClampMark {
    /// Its place in `Run::via`.
    pub via: usize,
    /// Its middle in the bay.
    pub point: DVec3,
    /// Unit vector through it, from A to B.
    pub along: DVec3,
    /// Its middle along the hose.
    pub at_mm: f64,
    /// Half the length it grips, given or the hose's outside diameter on either side.
    pub half_grip_mm: f64,
    /// Distance to the corner on either side, given or found.
    pub straight_mm: f64,
    /// Straight hose between its middle and the bend before it, as drawn; none where nothing turns.
    pub straight_before_mm: Option<f64>,
    /// The same for the bend after it.
    pub straight_after_mm: Option<f64>,
}

/// A stretch of hose between two held points.
#[derive(Debug, Clone, PartialEq)]
pub struct FreeSpan {
    /// Its place in `Run::slack_mm`.
    pub place: usize,
    /// Where it begins, along the hose.
    pub from_mm: f64,
    /// Where it ends, along the hose.
    pub to_mm: f64,
    /// Straight distance between the two.
    pub chord_mm: f64,
    /// By how much the drawn route turns in it, degrees.
    pub turn_deg: f64,
    /// Its share of the slack.
    pub slack_mm: f64,
    /// Its share of what the hose is cut longer or shorter than it is: as the slack is shared; those of a
    /// run sum to 1.
    pub share: f64,
}

impl FreeSpan {
    /// Its drawn length.
    pub fn length_mm(&self) -> f64 {
        self.to_mm - self.from_mm
    }

    /// The hose it has where the run is cut longer by so much.
    pub fn hose_mm(&self, longer_mm: f64) -> f64 {
        self.length_mm() + self.slack_mm + self.share * longer_mm
    }

    /// What it has more than the straight way, shortened by so many per cent; negative: pulled tight.
    pub fn spare_mm(&self, shortening_pct: f64) -> f64 {
        self.hose_mm(0.0) * (1.0 - shortening_pct / 100.0) - self.chord_mm
    }
}
