//! `drain-falls`: a gravity drain falls all along, also where the vehicle or boat tilts.

use glam::DVec3;

use crate::checks::context::RunContext;
use crate::checks::figures::Figures;
use crate::checks::{Finding, RuleInfo, Severity, Unit};
use crate::engine::drain::{Fall, fall};
use crate::model::{Mark, Source, Stance, Tilt};
use crate::units::EPS_MM;

pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "drain-falls",
    severity: Severity::Fail,
    title: "Drain does not fall all along",
    what: "Each hose whose service says that it drains: the angle of every piece of hose below \
           the horizontal, from the end that the flow leaves (the higher one where no flow is \
           given), as drawn and as installed, level and at every combination of the extremes of \
           the bay's `tilt_deg`, against 1/4 in per ft (1.19°). A piece that rises is a fault, \
           one that falls too little a warning. End fittings and other positions of moving \
           groups are not checked. A turbo's oil drain needs more: its outlet within 15° of \
           straight down (a turbocharger manufacturer's guide, published).",
    source: Source::fixed(
        Mark::StandIn,
        "IPC Table 704.1 as adopted in Chicago Code 18-29-704.1: drains in buildings to 2 1/2 in, 1/4 in per ft",
    ),
};

/// Fall over horizontal distance: 1/4 in per ft ([`RULE`]).
const LEAST_SLOPE: f64 = 0.25 / 12.0;
/// How finely the drawn arcs are followed, mm.
const ACCURACY_MM: f64 = 0.01;

/// At most two findings a run: standing level, and tilted.
pub(in crate::checks) fn check(run: &RunContext<'_>) -> Vec<Finding> {
    if run.run.service.drains != Some(true) {
        return Vec::new();
    }
    let shapes = shapes(run);
    let (level, tilted): (Vec<Stance>, Vec<Stance>) =
        Tilt::stances(run.bay.tilt.as_ref()).into_iter().partition(|stance| stance.is_level());
    [level, tilted]
        .into_iter()
        .filter_map(|stances| {
            let found = stances
                .into_iter()
                .flat_map(|stance| shapes.iter().filter_map(move |shape| shape.too_flat(stance)));
            found.min_by(|a, b| a.fall.least_deg.total_cmp(&b.fall.least_deg))
        })
        .map(|worst| worst.finding(run))
        .collect()
}

/// The hose as drawn or as installed, the way it drains.
struct Shape {
    word: &'static str,
    points: Vec<DVec3>,
    is_turned: bool,
}

/// A shape that falls too little.
struct TooFlat<'a> {
    shape: &'a Shape,
    stance: Stance,
    fall: Fall,
}

fn shapes(run: &RunContext<'_>) -> Vec<Shape> {
    let is_turned = drains_from_b(run);
    let turned = |mut points: Vec<DVec3>| {
        if is_turned {
            points.reverse();
        }
        points
    };
    let drawn = turned(run.solved.centre_line.sampled(ACCURACY_MM));
    let mut shapes = vec![Shape { word: "as drawn", points: drawn, is_turned }];
    shapes.extend(run.lay.map(|lay| Shape {
        word: "as installed",
        points: turned(lay.installed.points.to_vec()),
        is_turned,
    }));
    shapes
}

/// By the flow; where none is given from the higher seat.
fn drains_from_b(run: &RunContext<'_>) -> bool {
    let (a, b) = (run.solved.from.frame.seat.z, run.solved.to.frame.seat.z);
    match run.run.service.flow_lpm {
        Some(flow) if flow != 0.0 => flow < 0.0,
        _ => b > a,
    }
}

impl Shape {
    fn too_flat(&self, stance: Stance) -> Option<TooFlat<'_>> {
        let fall = fall(&self.points, stance.up(), LEAST_SLOPE)?;
        (fall.too_high_mm > EPS_MM).then_some(TooFlat { shape: self, stance, fall })
    }

    /// A distance along these points as one from cut end A.
    fn bench_mm(&self, along_mm: f64) -> f64 {
        if !self.is_turned {
            return along_mm;
        }
        let whole: f64 = self.points.windows(2).map(|pair| pair[0].distance(pair[1])).sum();
        whole - along_mm
    }
}

impl TooFlat<'_> {
    fn finding(&self, run: &RunContext<'_>) -> Finding {
        let Self { shape, fall, .. } = self;
        let from_a = shape.bench_mm(fall.at_mm);
        let at_mm = if shape.word == "as drawn" { from_a } else { run.solved.drawn_at_mm(from_a) };
        let (is, least) = (fall.least_deg, LEAST_SLOPE.atan().to_degrees());
        let slope = if is < 0.0 { "rises at" } else { "falls at" };
        let (angle, minimum) = Figures::two_degrees(is.abs(), least);
        Finding {
            severity: if is < 0.0 { Severity::Fail } else { Severity::Warn },
            at_mm: Some(at_mm),
            point: Some(fall.point),
            value: Some(is),
            limit: Some(least),
            unit: Unit::Degree,
            message: format!(
                "Drain {slope} {angle} {}, {}; minimum fall {minimum} (1/4 in per ft)",
                shape.word,
                standing(self.stance),
            ),
            hint: self.hint(run),
            ..run.finding(&RULE)
        }
    }

    fn hint(&self, run: &RunContext<'_>) -> String {
        let Self { shape, fall, .. } = self;
        let show = |mm: f64| run.figures().length(mm);
        let up = |mm: f64| run.figures().length_up(mm);
        if fall.end_too_high_mm > EPS_MM {
            let [upper, lower] = if shape.is_turned { ["B", "A"] } else { ["A", "B"] };
            return format!(
                "Raise end {upper} or lower end {lower} by {}: the ends alone do not fall enough",
                up(fall.end_too_high_mm),
            );
        }
        format!(
            "Lower the hose by {} at {} from cut end A, or raise it by as much at {}",
            up(fall.too_high_mm),
            show(shape.bench_mm(fall.high_mm)),
            show(shape.bench_mm(fall.low_mm)),
        )
    }
}

/// `level`, `at pitch −10°, roll 30°`
fn standing(stance: Stance) -> String {
    if stance.is_level() {
        return "level".to_owned();
    }
    let [pitch, roll] = [stance.pitch_deg, stance.roll_deg].map(Figures::degrees);
    format!("at pitch {pitch}, roll {roll}")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::fixture::{Fixture, run};

    /// Straight from end A to end B, down at an angle in the plane of X and Z, with no slack.
    fn slope(down_deg: f64, tilt: Option<Tilt>) -> Vec<Finding> {
        let (sin, cos) = down_deg.to_radians().sin_cos();
        let fixture = Fixture::straight(600.0, |bay| {
            let way = DVec3::new(cos, 0.0, -sin);
            bay.ports[0].toward = way;
            bay.ports[1].at = 600.0 * way;
            bay.ports[1].toward = -way;
            bay.tilt = tilt;
            run(bay).slack_pct = Some(0.0);
            run(bay).service.drains = Some(true);
        });
        check(&fixture.context())
    }

    fn pitched(deg: f64) -> Tilt {
        Tilt { pitch_deg: [-deg, deg], ..Tilt::default() }
    }

    #[test]
    fn drain_falls_by_a_quarter_inch_per_foot_at_least() {
        // 1/48: 1.1935°.
        assert_eq!(slope(1.2, None), []);
        let found = slope(1.18, None);
        assert_eq!((found.len(), found[0].severity), (1, Severity::Warn));
        assert!((found[0].value.unwrap() - 1.18).abs() < 1e-3, "{found:?}");
        assert!((found[0].limit.unwrap() - 1.193_489).abs() < 1e-5);
        assert!(found[0].message.contains("level"), "{}", found[0].message);
        assert!(found[0].hint.contains("Raise end A or lower end B by"), "{}", found[0].hint);
    }

    #[test]
    fn drain_falls_at_each_extreme_of_tilt_too() {
        assert_eq!(slope(12.0, Some(pitched(10.0))), []);
        // The bow lifted by 10°: what fell at 5° forward rises at 5°.
        let found = slope(5.0, Some(pitched(10.0)));
        assert_eq!((found.len(), found[0].severity), (1, Severity::Fail));
        assert!((found[0].value.unwrap() + 5.0).abs() < 1e-3, "{found:?}");
        assert!(found[0].message.contains("at pitch −10°, roll 0°"), "{}", found[0].message);
    }

    #[test]
    fn drain_falls_names_the_sag_of_the_installed_shape() {
        let sagging = |slack| {
            let fixture = Fixture::straight(900.0, |bay| {
                bay.ports[1].at.z = -40.0;
                run(bay).slack_pct = Some(slack);
                run(bay).service.drains = Some(true);
            });
            check(&fixture.context())
        };
        let found = sagging(5.0);
        assert!(found.iter().any(|f| f.message.contains(" as installed, level;")), "{found:?}");
        assert!(found[0].point.is_some() && found[0].hint.contains("from cut end A"));
    }

    #[test]
    fn what_is_not_said_to_drain_may_rise() {
        assert_eq!(check(&Fixture::z().context()), []);
        // The other way round by its flow.
        let fixture = Fixture::straight(600.0, |bay| {
            bay.ports[1].at.z = -100.0;
            run(bay).service.drains = Some(true);
            run(bay).service.flow_lpm = Some(-1.0);
        });
        let found = check(&fixture.context());
        assert_eq!(found[0].severity, Severity::Fail);
        assert!(found[0].hint.contains("Raise end B or lower end A"), "{}", found[0].hint);
    }
}
