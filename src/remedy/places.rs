//! The changes to try on one hose, in groups: the least work on the bench first.

use glam::DVec3;

use super::Change;
use crate::engine::lengths::{Recommended, advise_run};
use crate::engine::{BendPlace, FreeSpan, RoutingSolution, RunSolution, end_kind};
use crate::geom::Piece;
use crate::model::{Bay, Routing, Run, Side, Via};
use crate::units::{EPS_MM, LengthUnit};

/// Clock angles are tried so far apart, degrees.
const CLOCK_STEP_DEG: f64 = 15.0;

/// Moves are by these, in the bay's own unit: mm or inches.
fn steps_mm(unit: LengthUnit) -> [f64; 4] {
    match unit {
        LengthUnit::Mm => [10.0, 25.0, 50.0, 100.0],
        LengthUnit::Inch => [0.5, 1.0, 2.0, 4.0].map(|inches| inches * 25.4),
    }
}

/// One hose, solved, with the places of its findings.
pub(super) struct HoseCase<'a> {
    pub(super) bay: &'a Bay,
    /// A routing of this one hose.
    pub(super) routing: &'a Routing,
    pub(super) solution: &'a RoutingSolution,
    pub(super) run: &'a Run,
    pub(super) solved: &'a RunSolution,
    /// Places of its findings along the drawn centre line, mm.
    pub(super) places_mm: &'a [f64],
}

impl HoseCase<'_> {
    /// The groups of changes, the least work first; for warnings alone nothing is routed again.
    pub(super) fn groups(has_fault: bool) -> Vec<fn(&Self) -> Vec<Change>> {
        let mut groups: Vec<fn(&Self) -> Vec<Change>> =
            vec![Self::lengths, Self::given_figures, Self::clamps];
        if has_fault {
            groups.push(Self::moves);
            groups.push(Self::turns);
            groups.push(Self::corners);
        }
        groups
    }

    /// The cut length that passes at both ends of its tolerance, and the slack elsewhere.
    fn lengths(&self) -> Vec<Change> {
        let advice = advise_run(self.bay, self.routing, self.solution, 0);
        let recommended = advice.and_then(|advice| advice.recommended).filter(|one| one.is_whole);
        let is_other = |cut: f64| (cut - self.solved.cut_length_mm).abs() > EPS_MM;
        let other = recommended.filter(|one| is_other(one.cut_mm));
        let cut = |one: Recommended| Change::Cut { cut_mm: one.cut_mm, within_mm: one.within_mm };
        other.map(cut).into_iter().chain(self.slacks()).collect()
    }

    /// Slack by free length: what each needs to reach, and the rest where the program puts it, all in one,
    /// or nowhere.
    fn slacks(&self) -> Vec<Change> {
        let spans = &self.solved.spans;
        if spans.len() < 2 {
            return Vec::new();
        }
        let kept = (1.0 - self.solved.hose.shortening_pct / 100.0).max(0.1);
        let needed = |span: &FreeSpan| (span.chord_mm / kept - span.length_mm()).max(0.0);
        let needed: Vec<f64> = spans.iter().map(|span| self.step_up(needed(span))).collect();
        let rest = (self.solved.slack_mm - needed.iter().sum::<f64>()).max(0.0);
        let shared = |share: &dyn Fn(usize) -> f64| {
            let mut each = vec![0.0; self.run.free_lengths()];
            for (k, span) in spans.iter().enumerate() {
                if let Some(slack) = each.get_mut(span.place) {
                    *slack = self.step_up(needed[k] + share(k));
                }
            }
            Change::Slack(each)
        };
        let all: f64 = spans.iter().map(FreeSpan::length_mm).sum();
        let mut changes = vec![
            shared(&|k| rest * spans[k].share),
            shared(&|k| rest * spans[k].length_mm() / all),
            shared(&|_| 0.0),
        ];
        changes.extend((0..spans.len()).map(|one| shared(&|k| if k == one { rest } else { 0.0 })));
        changes
    }

    fn step_up(&self, mm: f64) -> f64 {
        let step = self.bay.show_units.bench_step_mm();
        (mm / step - 1e-9).ceil() * step
    }

    /// Figures that were given, left to the program.
    fn given_figures(&self) -> Vec<Change> {
        let run = self.run;
        let mut changes = Vec::new();
        for side in [Side::A, Side::B] {
            if run.end(side).straight_mm.is_some() {
                changes.push(Change::FreeStraight(side));
            }
        }
        for (place, via) in run.via.iter().enumerate() {
            if matches!(via, Via::Clamp(clamp) if clamp.straight_mm.is_some()) {
                changes.push(Change::FreeClampStraight(place));
            }
        }
        let wants = |via: &Via| matches!(via, Via::Corner(corner) if corner.radius_mm.is_some());
        if run.radius_mm.is_some() || run.via.iter().any(wants) {
            changes.push(Change::FreeRadius);
        }
        changes
    }

    /// Corners and clamps moved along the axes, the least first.
    fn moves(&self) -> Vec<Change> {
        let mut changes = Vec::new();
        for step in steps_mm(self.bay.show_units) {
            for place in 0..self.run.via.len() {
                changes.extend(WAYS.map(|way| Change::Move(place, way * step)));
            }
        }
        changes
    }

    /// Elbows turned about their ports.
    fn turns(&self) -> Vec<Change> {
        let mut changes = Vec::new();
        for side in [Side::A, Side::B] {
            let end = self.run.end(side);
            if end.angle_deg <= 0.0 {
                continue;
            }
            let turns = (1..24).map(|k| (end.clock_deg + CLOCK_STEP_DEG * f64::from(k)) % 360.0);
            changes.extend(turns.map(|deg| Change::Clock(side, deg)));
        }
        changes
    }

    /// A clamp put in, a clamp or a corner taken out.
    fn clamps(&self) -> Vec<Change> {
        let more = self.solved.spans.iter().filter_map(|span| self.clamp_in(span));
        more.chain((0..self.run.via.len()).map(Change::Remove)).collect()
    }

    /// Corners put in, and other ends of the same kind.
    fn corners(&self) -> Vec<Change> {
        let mut changes = Vec::new();
        let middles = self.solved.spans.iter().map(|s| f64::midpoint(s.from_mm, s.to_mm));
        let places: Vec<f64> = self.places_mm.iter().copied().chain(middles).collect();
        for step in &steps_mm(self.bay.show_units)[1..] {
            for at_mm in &places {
                changes.extend(WAYS.map(|way| self.corner_off(*at_mm, way * *step)));
            }
        }
        changes.extend(self.ends());
        changes
    }

    /// A clamp in the middle of the longest straight of a free length.
    fn clamp_in(&self, span: &FreeSpan) -> Option<Change> {
        let lines = self.solved.centre_line.pieces().filter_map(|(start, piece)| {
            let Piece::Line { direction, length, .. } = piece else { return None };
            let (from, to) = (start.max(span.from_mm), (start + length).min(span.to_mm));
            (to > from).then_some((from, to, direction))
        });
        let (from, to, along) = lines.max_by(|a, b| (a.1 - a.0).total_cmp(&(b.1 - b.0)))?;
        let middle = f64::midpoint(span.from_mm, span.to_mm).clamp(from, to);
        // Room for the clamp on either side.
        let half = self.solved.hose.outside_mm.min((to - from) / 2.0);
        let at_mm = middle.clamp(from + half, to - half);
        Some(Change::AddClamp {
            place: self.place_at(at_mm),
            at: self.solved.centre_line.point_at(at_mm),
            along,
            from_a_mm: self.solved.on_bench_mm(at_mm),
        })
    }

    fn corner_off(&self, at_mm: f64, off: DVec3) -> Change {
        Change::AddCorner {
            place: self.place_at(at_mm),
            at: self.solved.centre_line.point_at(at_mm) + off,
            off,
            from_a_mm: self.solved.on_bench_mm(at_mm),
        }
    }

    /// The place in `Run::via` for a corner or clamp here.
    fn place_at(&self, at_mm: f64) -> usize {
        let bends = self.solved.bends();
        let at_of = |place: usize| match self.run.via[place] {
            Via::Clamp(_) => {
                self.solved.clamps.iter().find(|clamp| clamp.via == place).map(|clamp| clamp.at_mm)
            }
            Via::Corner(_) => {
                let own = BendPlace::Corner(place as u32);
                bends.iter().find(|bend| bend.place == own).map(|bend| bend.at_mm)
            }
        };
        let first_beyond = (0..self.run.via.len()).find(|p| at_of(*p).is_some_and(|at| at > at_mm));
        first_beyond.unwrap_or(self.run.via.len())
    }

    /// Other angles that each end's kind comes in.
    fn ends(&self) -> Vec<Change> {
        let of_side = |side: Side| {
            let end = self.run.end(side);
            let kind = end.end.as_deref().filter(|_| !end.is_measured());
            let sizes = kind.and_then(|id| end_kind(self.bay, id)).map_or(&[][..], |k| &k.sizes);
            let others = sizes.iter().filter(move |size| {
                size.dash == self.run.dash && (size.angle_deg - end.angle_deg).abs() > 1e-6
            });
            others.flat_map(move |size| {
                let angle = Change::Angle(side, size.angle_deg);
                let turned = (0..4).map(|k| 90.0 * f64::from(k)).filter(|_| size.angle_deg > 0.0);
                let turned = turned.map({
                    let angle = angle.clone();
                    move |deg| Change::Both(angle.clone().into(), Change::Clock(side, deg).into())
                });
                std::iter::once(angle.clone()).filter(|_| size.angle_deg <= 0.0).chain(turned)
            })
        };
        of_side(Side::A).chain(of_side(Side::B)).collect()
    }
}

/// Forward, back, left, right, up, down (ISO 8855).
const WAYS: [DVec3; 6] = [DVec3::X, DVec3::NEG_X, DVec3::Y, DVec3::NEG_Y, DVec3::Z, DVec3::NEG_Z];
