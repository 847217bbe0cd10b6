//! `bench-length`: what the bench cuts meets the limits that the calculated length meets.

use crate::checks::context::RunContext;
use crate::checks::figures::Figures;
use crate::checks::limit::severity_past_limit;
use crate::checks::{Finding, RuleInfo, Severity, Unit};
use crate::engine::lengths::{BenchStop, Stop};
use crate::model::{Mark, Source};
use crate::units::Length;

pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "bench-length",
    severity: Severity::Fail,
    title: "Rounded-up length misses a limit",
    what: "The cut length rounded up to the bench's step (1/16 in, 1 mm), as the sheet prints it, against the limits of the \
           installed shape in every position: minimum bend radius and minimum clearances. Found only where the calculated \
           length meets them. The value is the rounded-up length, the limit the calculated one.",
    source: Source::fixed(
        Mark::Calculated,
        "shape of least bending energy for the length of each free length",
    ),
};

/// At most one finding a run.
pub(in crate::checks) fn check(run: &RunContext<'_>) -> Vec<Finding> {
    let Some(stop) = run.bench_stop else { return Vec::new() };
    let severity = match (stop.stop, stop.short_mm) {
        (Stop::Radius, Some(short_mm)) => {
            let limit_mm = run.solved.radius_limit_mm;
            severity_past_limit(limit_mm - short_mm, limit_mm, &run.solved.hose.radius_limit_source)
        }
        _ => Severity::Fail,
    };
    let cut = Length::from_mm(run.solved.cut_length_mm).bench(run.bay.show_units);
    vec![Finding {
        severity,
        value: Some(stop.cut_mm),
        limit: Some(run.solved.cut_length_mm),
        unit: Unit::Mm,
        message: format!("Cut to {cut}, rounded up, the hose {}", missed(&stop, run.figures())),
        hint: hint(&stop, run),
        ..run.finding(&RULE)
    }]
}

fn missed(stop: &BenchStop, figures: Figures) -> String {
    let by = stop.short_mm.map_or_else(String::new, |mm| format!(" by {}", figures.depth(mm)));
    let missed = match stop.stop {
        Stop::Radius => format!("misses its minimum bend radius{by}"),
        Stop::Clearance => format!("misses a minimum clearance{by}"),
        Stop::Reach => "is pulled tight".to_owned(),
        Stop::Unsolved => "has no installed shape that can be calculated".to_owned(),
    };
    match stop.position {
        0 => missed,
        position => format!("{missed} in position {}", position + 1),
    }
}

fn hint(stop: &BenchStop, run: &RunContext<'_>) -> String {
    match stop.instead_mm {
        Some(mm) => {
            let cut = Length::from_mm(mm).show(run.bay.show_units);
            format!("Cut {cut} instead: give the slack that makes it so")
        }
        None => "Give it another slack, or make room: no step of the bench meets the limits here"
            .to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use glam::DVec3;

    use super::*;
    use crate::checks::fixture::{Fixture, run};
    use crate::model::{Nature, Obstacle, Shape};

    /// A straight hose of 700 mm that bows down towards a bar, whose top is `below` the line of its ports.
    fn above_a_bar(below: f64, slack_pct: f64) -> Fixture {
        Fixture::straight(700.0, |bay| {
            run(bay).slack_pct = Some(slack_pct);
            // It does not get shorter, and so is not pulled tight.
            run(bay).service.pressure_bar = Some(0.0);
            bay.obstacles.push(Obstacle {
                id: "bar".to_owned(),
                name: String::new(),
                nature: Nature::Plain,
                group: None,
                min_clearance_mm: Some(10.0),
                shape: Shape::Box {
                    min: DVec3::new(250.0, -400.0, -below - 50.0),
                    max: DVec3::new(450.0, 400.0, -below),
                },
                locked: None,
                extra: Vec::new(),
            });
        })
    }

    /// The least `below` at which the calculated length keeps its minimum clearance, to a micrometre.
    fn just_clear(slack_pct: f64) -> f64 {
        let (mut fouls, mut clears) = (20.0, 400.0);
        while clears - fouls > 1e-3 {
            let below = f64::midpoint(fouls, clears);
            let lay = above_a_bar(below, slack_pct).lay.unwrap();
            if lay.clearance.too_near.is_empty() { clears = below } else { fouls = below }
        }
        clears
    }

    #[test]
    fn a_length_with_no_room_for_rounding_is_told_with_what_to_cut_instead() {
        let below = just_clear(3.1);
        let fixture = above_a_bar(below, 3.1);
        let exact = fixture.solved.cut_length_mm;
        assert!(exact.ceil() - exact > 0.2, "{exact}");
        let found = check(&fixture.context());
        assert_eq!(found.len(), 1, "{exact}");
        assert_eq!(found[0].value, Some(exact.ceil()));
        assert!(found[0].message.contains("misses a minimum clearance by"), "{}", found[0].message);
        assert!(
            found[0].hint.starts_with(&format!("Cut {} mm", exact.floor())),
            "{}",
            found[0].hint
        );
        // Cut so, the hose has its room, and nothing is left to say.
        let centreline = fixture.solved.centreline_mm;
        let slack_pct = 100.0 * (exact.floor() / centreline - 1.0);
        assert_eq!(check(&above_a_bar(below, slack_pct).context()), []);
        // With the room that the rounding takes nothing is found.
        assert_eq!(check(&above_a_bar(below + 5.0, 3.1).context()), []);
    }

    #[test]
    fn a_length_that_is_missed_anyway_is_left_to_the_other_rules() {
        let fixture = above_a_bar(30.0, 3.1);
        assert!(!fixture.lay.as_ref().unwrap().clearance.too_near.is_empty());
        assert_eq!(check(&fixture.context()), []);
    }
}
