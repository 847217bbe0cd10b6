//! The inputs of the rules of one run, and blank findings to fill in.

use glam::DVec3;

use super::figures::Figures;
use super::{Finding, RuleInfo, Unit};
use crate::engine::clearance::{NearObstacle, TubeClearance};
use crate::engine::installed::Tightest;
use crate::engine::lay::RunLay;
use crate::engine::lengths::BenchStop;
use crate::engine::motion::{Positions, RunMotion};
use crate::engine::{BendPlace, ClampMark, FreeSpan, RunSolution, end_kind};
use crate::model::{Bay, Construction, EndKind, HoseKind, Obstacle, Run, Side, Via};
use crate::units::EPS_MM;

/// One solved run with everything it refers to.
#[derive(Debug, Clone, Copy)]
pub(super) struct RunContext<'a> {
    pub(super) bay: &'a Bay,
    pub(super) run: &'a Run,
    pub(super) solved: &'a RunSolution,
    pub(super) clearance: &'a TubeClearance,
    pub(super) lay: Option<&'a RunLay>,
    pub(super) motion: Option<(&'a RunMotion, &'a Positions)>,
    pub(super) bench_stop: Option<BenchStop>,
    pub(super) hose: &'a HoseKind,
}

/// Both ends, in order.
pub(super) const SIDES: [Side; 2] = [Side::A, Side::B];

impl<'a> RunContext<'a> {
    /// Figures in the bay's units.
    pub(super) fn figures(&self) -> Figures {
        Figures { unit: self.bay.show_units }
    }

    /// A finding of `rule` on this run at the rule's own severity, without words, figures and place.
    pub(super) fn finding(&self, rule: &RuleInfo) -> Finding {
        blank(rule, Some(self.run.id.clone()))
    }

    /// The same at a distance along the hose.
    pub(super) fn finding_at(&self, rule: &RuleInfo, at_mm: f64) -> Finding {
        Finding {
            at_mm: Some(at_mm),
            point: Some(self.solved.centre_line.point_at(at_mm)),
            ..self.finding(rule)
        }
    }

    /// The same where the hose, as installed, comes nearest to an obstacle.
    pub(super) fn finding_near(
        &self,
        rule: &RuleInfo,
        obstacle: &Obstacle,
        near: &NearObstacle,
    ) -> Finding {
        Finding {
            other: Some(obstacle.id.clone()),
            at_mm: Some(self.solved.drawn_at_mm(near.at_mm)),
            point: Some(near.on_axis),
            value: Some(near.gap_mm),
            limit: Some(near.min_clearance_mm),
            unit: Unit::Mm,
            ..self.finding(rule)
        }
    }

    /// The same at the tightest place of the hose as installed, where that is below the minimum radius.
    pub(super) fn finding_tight(&self, rule: &RuleInfo, place: &Tightest) -> Option<Finding> {
        let limit_mm = self.solved.radius_limit_mm;
        (place.radius_mm < limit_mm - EPS_MM).then(|| Finding {
            at_mm: Some(self.solved.drawn_at_mm(place.at_mm)),
            point: Some(place.point),
            value: Some(place.radius_mm),
            limit: Some(limit_mm),
            unit: Unit::Mm,
            ..self.finding(rule)
        })
    }

    /// The same at the seat of one end.
    pub(super) fn finding_at_end(&self, rule: &RuleInfo, side: Side) -> Finding {
        let (at_mm, point) = self.seat(side);
        Finding { at_mm: Some(at_mm), point: Some(point), ..self.finding(rule) }
    }

    fn seat(&self, side: Side) -> (f64, DVec3) {
        match side {
            Side::A => (0.0, self.solved.from.frame.seat),
            Side::B => (self.solved.centreline_mm, self.solved.to.frame.seat),
        }
    }

    /// The kind of end fitting on one side; none where it is measured and not named.
    pub(super) fn end_kind(&self, side: Side) -> Option<&'a EndKind> {
        self.run.end(side).end.as_deref().and_then(|id| end_kind(self.bay, id))
    }

    /// Least and greatest working temperature of the hose, °C.
    pub(super) fn temperature_range_c(&self) -> Option<[f64; 2]> {
        self.hose.temperature_of(self.run.dash)
    }

    /// The liner as a word of the fluids table, and whether it is assumed from the construction.
    /// Rubber with a braid is assumed to be NBR (common practice).
    pub(super) fn liner(&self) -> Option<(&'a str, LinerIs)> {
        if let Some(word) = &self.hose.liner {
            return Some((word, LinerIs::Given));
        }
        match self.hose.construction {
            Construction::PtfeBraid => Some(("PTFE", LinerIs::Given)),
            Construction::RubberBraid => Some(("NBR", LinerIs::Assumed)),
            Construction::PushOn | Construction::Other(_) => None,
        }
    }

    /// A free length by what holds it: `between end A and clamp 1`.
    pub(super) fn span_name(&self, span: &FreeSpan) -> String {
        let is_before = |clamp: &&ClampMark| clamp.at_mm < f64::midpoint(span.from_mm, span.to_mm);
        match (self.solved.clamps.iter().filter(is_before).count(), self.solved.clamps.len()) {
            (0, 0) => "between end A and end B".to_owned(),
            (0, _) => "between end A and clamp 1".to_owned(),
            (last, all) if last == all => format!("between clamp {last} and end B"),
            (before, _) => format!("between clamp {before} and clamp {}", before + 1),
        }
    }

    /// How much the hose shortens in service: `shortens 0.6 % at 580 psi`.
    pub(super) fn shortening_words(&self) -> String {
        let hose = &self.solved.hose;
        let here = Figures::percent(hose.shortening_pct);
        match hose.shortening.scaled {
            Some([service, rating]) if service > 0.0 => {
                let (service, _) = self.figures().pressures(service, rating);
                format!("shortens {here} at {service}")
            }
            Some(_) => "no pressure, no shortening".to_owned(),
            None => format!("shortens {here}, in full: service or rated pressure unknown"),
        }
    }

    /// Hose that is compared with a straight distance: `of hose under pressure`.
    pub(super) fn of_hose(&self) -> &'static str {
        if self.solved.hose.shortening_pct > 0.0 { "of hose under pressure" } else { "of hose" }
    }

    /// A bend by what makes it: `Corner 2`, `The bend after end A`.
    pub(super) fn bend_name(&self, place: BendPlace) -> String {
        match place {
            BendPlace::StraightA => "The bend after end A".to_owned(),
            BendPlace::StraightB => "The bend before end B".to_owned(),
            BendPlace::Corner(via) => format!("Corner {}", self.count(via, is_corner)),
            BendPlace::BeforeClamp(via) => {
                format!("The bend before clamp {}", self.count(via, is_clamp))
            }
            BendPlace::AfterClamp(via) => {
                format!("The bend after clamp {}", self.count(via, is_clamp))
            }
        }
    }

    /// The corner of a bend within a sentence: `corner 2`, `the corner after end A`.
    pub(super) fn corner_name(&self, place: BendPlace) -> String {
        self.bend_name(place).replacen("The bend", "the corner", 1).replacen("Corner", "corner", 1)
    }

    /// The number of the step `via` among its kind, from 1.
    fn count(&self, via: u32, kind: fn(&Via) -> bool) -> usize {
        self.run.via.iter().take(via as usize + 1).filter(|step| kind(step)).count()
    }
}

/// Whether a hose's liner is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum LinerIs {
    /// The hose or its construction names it.
    Given,
    /// Assumed from the construction.
    Assumed,
}

fn is_corner(via: &Via) -> bool {
    matches!(via, Via::Corner(_))
}

fn is_clamp(via: &Via) -> bool {
    matches!(via, Via::Clamp(_))
}

/// A finding of `rule` at the rule's own severity, without words, figures and place.
pub(super) fn blank(rule: &RuleInfo, run: Option<String>) -> Finding {
    Finding {
        rule: rule.id,
        severity: rule.severity,
        run,
        other: None,
        at_mm: None,
        point: None,
        value: None,
        limit: None,
        unit: Unit::None,
        message: String::new(),
        hint: String::new(),
        source: rule.source.to_string(),
    }
}
