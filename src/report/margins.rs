//! How near a hose comes to its limits, the nearest first: the few figures that matter for it now.

use super::answer::Answer;
use super::sheet::with_position;
use crate::checks::{Severity, severity_past_limit};
use crate::engine::clearance::NearObstacle;
use crate::engine::motion::{Positions, RunMotion};
use crate::engine::{RunSolution, hose_kind, weakest};
use crate::model::{Bay, Run};
use crate::units::{
    EPS_MM, Length, LengthUnit, Pressure, PressureUnit, Temperature, TemperatureUnit,
};

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
        let minimum = if near.min_clearance_mm > 0.0 {
            format!("minimum {}", self.length(near.min_clearance_mm))
        } else {
            "must not touch".to_owned()
        };
        let spare_mm = near.spare_mm();
        // Two hose diameters beyond its minimum a gap is ample.
        let scale = near.min_clearance_mm + 2.0 * self.solved.hose.outside_mm;
        Some(Margin {
            name: "Clearance",
            value: if near.gap_mm < 0.0 {
                format!("fouls by {}", self.length(-near.gap_mm))
            } else {
                self.length(near.gap_mm)
            },
            limit: format!("{obstacle}, {minimum}{when}"),
            used: 1.0 - spare_mm / scale.max(EPS_MM),
            past: (spare_mm < -EPS_MM).then_some(Severity::Fail),
        })
    }

    /// What is left before the hose is pulled tight, where its ends move.
    fn reach(&self) -> Option<Margin> {
        let (motion, _) = self.motion().filter(|(motion, _)| motion.rides)?;
        let (position, reach) = motion.least_reach()?;
        let is_short = reach.spare_mm < -EPS_MM;
        let length = self.length(reach.spare_mm.abs());
        Some(Margin {
            name: "Hose to spare",
            value: if is_short { format!("{length} too short") } else { length },
            limit: format!("shortened by pressure{}", self.position(Some(position))),
            used: 1.0 - reach.spare_mm / self.solved.slack_mm.max(self.solved.hose.outside_mm),
            past: is_short.then_some(Severity::Fail),
        })
    }

    fn pressure(&self) -> Option<Margin> {
        let service = self.run.service.pressure_bar?;
        let (part, working) = weakest(self.bay, self.run).filter(|(_, bar)| *bar > 0.0)?;
        let show = |bar: f64| Pressure::from_bar(bar).show(PressureUnit::from(self.unit()));
        Some(Margin {
            name: "Pressure",
            value: show(service),
            limit: format!("working pressure of {part} {}", show(working)),
            used: service / working,
            past: (service > working).then_some(Severity::Fail),
        })
    }

    fn temperature(&self) -> Option<Margin> {
        let service = self.run.service.temperature_c?;
        let kind = hose_kind(self.bay, &self.run.hose)?;
        let of_size = kind.size(self.run.dash).and_then(|size| size.temperature_c);
        let [least, most] = of_size.or(kind.temperature_c)?;
        let (limit, word) = if service < WORKSHOP_C { (least, "from") } else { (most, "up to") };
        // Ratings are round figures of °C: the odd part of a degree F means nothing.
        let show = |celsius: f64| {
            let unit = TemperatureUnit::from(self.unit());
            let shown = Temperature::from_celsius(celsius);
            match unit {
                TemperatureUnit::Celsius => shown.show(unit),
                TemperatureUnit::Fahrenheit => {
                    Temperature::from_fahrenheit(shown.fahrenheit().round()).show(unit)
                }
            }
        };
        let used = (service - WORKSHOP_C) / (limit - WORKSHOP_C);
        Some(Margin {
            name: "Temperature",
            value: show(service),
            limit: format!("hose rated {word} {}", show(limit)),
            used: if used.is_finite() { used } else { 1.0 },
            past: (service < least || service > most).then_some(Severity::Fail),
        })
    }
}

#[cfg(test)]
mod tests;
