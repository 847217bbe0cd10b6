//! How near a hose comes to its limits, the nearest first: the few figures that matter for it now.

use super::answer::Answer;
use super::sheet::{bare_gap, spare_in_words, with_position};
use crate::checks::{Severity, severity_past_limit};
use crate::engine::clearance::NearObstacle;
use crate::engine::motion::{Positions, RunMotion};
use crate::engine::{RunSolution, hose_kind, weakest};
use crate::model::{Bay, HoseKind, Run};
use crate::units::{EPS_MM, Length, LengthUnit, Pressure, Temperature};

/// A figure against its limit.
#[derive(Debug, Clone, PartialEq)]
pub struct Margin {
    /// What is compared.
    pub name: &'static str,
    /// The figure.
    pub value: String,
    /// The limit, and where or when the figure is reached.
    pub limit: String,
    /// How much of what is allowed is used: 1 at the limit, more beyond it. The scale of each kind is ours:
    /// it serves the order and nothing else.
    pub used: f64,
    /// How bad it is that the limit is not kept; none where it is.
    pub past: Option<Severity>,
}

/// From here a temperature counts as used, °C: a workshop's.
const WORKSHOP_C: f64 = 20.0;

/// Those of the run in `place` that are known, the nearest to its limit first.
pub fn margins(answer: &Answer, place: usize) -> Vec<Margin> {
    let (Some(run), Some(solved)) = (answer.routing().runs.get(place), answer.solution.run(place))
    else {
        return Vec::new();
    };
    let of = Of { answer, place, bay: answer.bay(), run, solved };
    let mut all: Vec<Margin> =
        [of.bend(), of.clearance(), of.reach(), of.pressure(), of.temperature()]
            .into_iter()
            .flatten()
            .collect();
    all.sort_by(|a, b| b.used.total_cmp(&a.used));
    all
}

/// `minimum clearance 3/8 in`; `must not touch`.
pub fn minimum_in_words(min_clearance_mm: f64, unit: LengthUnit) -> String {
    if min_clearance_mm > 0.0 {
        format!("minimum clearance {}", Length::from_mm(min_clearance_mm).show(unit))
    } else {
        "must not touch".to_owned()
    }
}

/// Whether a hose is pulled tight in a position; as drawn, less than the bench can cut and mark is no fault
/// (`taut`, `motion-reach`).
pub fn is_too_short(position: usize, spare_mm: f64, unit: LengthUnit) -> bool {
    spare_mm < if position > 0 { -EPS_MM } else { -unit.bench_step_mm() }
}

struct Of<'a> {
    answer: &'a Answer,
    place: usize,
    bay: &'a Bay,
    run: &'a Run,
    solved: &'a RunSolution,
}

impl Of<'_> {
    fn unit(&self) -> LengthUnit {
        self.bay.show_units
    }

    fn length(&self, mm: f64) -> String {
        Length::from_mm(mm).show(self.unit())
    }

    fn kind(&self) -> Option<&HoseKind> {
        hose_kind(self.bay, &self.run.hose)
    }

    fn motion(&self) -> Option<(&RunMotion, &Positions)> {
        self.answer.solution.motion_of(self.place)
    }

    /// `, with Engine pivoted +3°`; nothing as drawn.
    fn position(&self, position: Option<usize>) -> String {
        let positions = self.motion().map(|(_, positions)| positions);
        match (position, positions) {
            (Some(place), Some(positions)) if place > 0 => {
                format!(", {}", with_position(positions, place))
            }
            _ => String::new(),
        }
    }

    /// The tightest of drawn, installed and moved.
    fn bend(&self) -> Option<Margin> {
        let lay = self.answer.solution.lay_of(self.place);
        let installed = lay.filter(|lay| lay.installed.is_whole());
        let moved = self.motion().and_then(|(motion, _)| motion.tightest());
        let (radius_mm, when) = [
            (self.solved.min_radius_mm, String::new()),
            (installed.and_then(|lay| lay.installed.min_radius_mm()), ", installed".to_owned()),
            (moved.map(|(_, at)| at.radius_mm), self.position(moved.map(|(place, _)| place))),
        ]
        .into_iter()
        .filter_map(|(radius, when)| Some((radius?, when)))
        .reduce(|least, next| if next.0 < least.0 - EPS_MM { next } else { least })?;
        let limit_mm = self.solved.radius_limit_mm;
        let source = &self.solved.hose.radius_limit_source;
        Some(Margin {
            name: "Tightest bend",
            value: self.length(radius_mm),
            limit: format!("minimum {}, centre line{when}", self.length(limit_mm)),
            used: 1.0 - (radius_mm - limit_mm) / limit_mm.max(EPS_MM),
            past: (radius_mm < limit_mm - EPS_MM)
                .then(|| severity_past_limit(radius_mm, limit_mm, source)),
        })
    }

    /// The nearest obstacle against its minimum clearance; as drawn only where the installed shape is unknown.
    fn clearance(&self) -> Option<Margin> {
        let solution = &self.answer.solution;
        let still = match solution.lay_of(self.place) {
            Some(lay) => lay.clearance.tightest,
            None => solution.clearance.runs.get(self.place)?.tightest,
        };
        let moved = self.motion().and_then(|(motion, _)| motion.nearest());
        let (near, position) = match (still, moved) {
            (Some(still), Some((position, moved)))
                if moved.spare_mm() < still.spare_mm() - EPS_MM =>
            {
                (moved, Some(position))
            }
            (Some(still), _) => (still, None),
            (None, moved) => moved.map(|(position, near)| (near, Some(position)))?,
        };
        self.near(near, position)
    }

    fn near(&self, near: NearObstacle, position: Option<usize>) -> Option<Margin> {
        let obstacle = self.bay.obstacles.get(near.obstacle)?.shown_name();
        let when = self.position(position);
        let minimum = minimum_in_words(near.min_clearance_mm, self.unit());
        let spare_mm = near.spare_mm();
        // Two hose diameters beyond its minimum a gap is ample.
        let scale = near.min_clearance_mm + 2.0 * self.solved.hose.outside_mm;
        Some(Margin {
            name: "Clearance",
            value: bare_gap(near.gap_mm, self.unit()),
            limit: format!("{obstacle}, {minimum}{when}"),
            used: 1.0 - spare_mm / scale.max(EPS_MM),
            past: (spare_mm < -EPS_MM).then_some(Severity::Fail),
        })
    }

    /// What is left before the hose is pulled tight, where its ends move.
    fn reach(&self) -> Option<Margin> {
        let (motion, _) = self.motion().filter(|(motion, _)| motion.rides)?;
        let (position, reach) = motion.least_reach()?;
        let is_short = is_too_short(position, reach.spare_mm, self.unit());
        let used = 1.0 - reach.spare_mm / self.solved.slack_mm.max(self.solved.hose.outside_mm);
        Some(Margin {
            name: "Hose to spare",
            value: spare_in_words(reach.spare_mm, self.unit()),
            limit: format!("shortened by pressure{}", self.position(Some(position))),
            used: if is_short { used } else { used.min(1.0) },
            past: is_short.then_some(Severity::Fail),
        })
    }

    fn pressure(&self) -> Option<Margin> {
        let service = self.run.service.pressure_bar?;
        let (part, working) = weakest(self.bay, self.run).filter(|(_, bar)| *bar > 0.0)?;
        // The ends' figures are the builder's own.
        let of_hose = self.kind().filter(|_| part == "the hose").map(|kind| &kind.sources.pressure);
        let past =
            of_hose.map_or(Severity::Fail, |source| severity_past_limit(service, working, source));
        let show = |bar: f64| Pressure::from_bar(bar).show(self.unit());
        Some(Margin {
            name: "Pressure",
            value: show(service),
            limit: format!("working pressure of {part} {}", show(working)),
            used: service / working,
            past: (service > working).then_some(past),
        })
    }

    fn temperature(&self) -> Option<Margin> {
        let service = self.run.service.temperature_c?;
        let kind = self.kind()?;
        let [least, most] = kind.temperature_of(self.run.dash)?;
        let (limit, word) = if service < WORKSHOP_C { (least, "from") } else { (most, "up to") };
        // Ratings are round figures of °C: the odd part of a degree F means nothing.
        let rating = match self.unit() {
            LengthUnit::Mm => Temperature::from_celsius(limit),
            LengthUnit::Inch => {
                Temperature::from_fahrenheit(Temperature::from_celsius(limit).fahrenheit().round())
            }
        };
        let is_past = service < least || service > most;
        let missed = if service < least { least } else { most };
        let past = severity_past_limit(service, missed, &kind.sources.temperature);
        let used = (service - WORKSHOP_C) / (limit - WORKSHOP_C);
        Some(Margin {
            name: "Temperature",
            value: Temperature::from_celsius(service).show(self.unit()),
            limit: format!("hose rated {word} {}", rating.show(self.unit())),
            used: if used.is_finite() { used } else { 1.0 },
            past: is_past.then_some(past),
        })
    }
}

#[cfg(test)]
mod tests;
