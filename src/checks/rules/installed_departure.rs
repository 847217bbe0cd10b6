//! `installed-departure`: no hose lies far from where it was drawn.

use crate::checks::context::RunContext;
use crate::checks::{Finding, RuleInfo, Severity, Unit};
use crate::engine::installed::{InstalledRun, InstalledSpan};
use crate::model::{Mark, Source};
use crate::units::EPS_MM;

pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "installed-departure",
    severity: Severity::Warn,
    title: "Far from the drawn route",
    what: "How far the installed shape lies from the drawn route at its farthest place. The limit is what a \
           straight free length of 610 mm, the longest between supports, bows at 5 % slack, rounded up.",
    source: Source::fixed(
        Mark::Calculated,
        "our own limit; shape of least bending energy for the length of each free length",
    ),
};

/// A straight hose held in line at both ends bows by 0.14 of its length at 5 % slack: 87 mm on 610 mm ([`RULE`]).
const LIMIT_MM: f64 = 100.0;

/// At most one finding a run.
pub(in crate::checks) fn check(run: &RunContext<'_>) -> Vec<Finding> {
    let installed = run.lay.map(|lay| &lay.installed).filter(|installed| installed.is_whole());
    let Some(installed) = installed.filter(|installed| installed.bulge.mm > LIMIT_MM + EPS_MM)
    else {
        return Vec::new();
    };
    let bulge = &installed.bulge;
    let (departure, limit) = run.figures().lengths(bulge.mm, LIMIT_MM);
    vec![Finding {
        point: Some(bulge.point),
        at_mm: Some(run.solved.drawn_at_mm(bulge.at_mm)),
        value: Some(bulge.mm),
        limit: Some(LIMIT_MM),
        unit: Unit::Mm,
        message: format!(
            "The hose lies {departure} from its drawn route once installed, more than {limit}"
        ),
        hint: hint(installed, bulge.at_mm),
        ..run.finding(&RULE)
    }]
}

fn hint(installed: &InstalledRun, at_mm: f64) -> String {
    let is_held = installed.spans.len() > 1;
    let is_there = |span: &&InstalledSpan| span.from_mm <= at_mm && at_mm <= span.to_mm();
    let has_slack = installed
        .spans
        .iter()
        .find(is_there)
        .is_some_and(|span| span.held.length > 1.02 * (span.drawn_to_mm - span.drawn_from_mm));
    let clamp = if is_held { "another clamp" } else { "a clamp" };
    if has_slack {
        format!("Set {clamp} on this free length, or give it less slack")
    } else {
        format!("Set {clamp} on this free length, or draw the route as the installed shape is")
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::fixture::{Fixture, run};

    #[test]
    fn the_longest_free_length_at_the_usual_slack_is_within_the_limit() {
        // Two set-backs of 21 mm and two sockets of 24 mm beside the free length. The slack of the whole hose
        // goes into it.
        let fixture = Fixture::straight(610.0 + 90.0, |bay| run(bay).slack_pct = Some(5.0));
        let bulge = fixture.lay.as_ref().unwrap().installed.bulge.mm;
        assert!((80.0..100.0).contains(&bulge), "{bulge}");
        assert_eq!(check(&fixture.context()), []);
    }

    #[test]
    fn a_long_hose_with_slack_bows_far_off() {
        let fixture = Fixture::straight(1200.0, |bay| run(bay).slack_pct = Some(5.0));
        let found = check(&fixture.context());
        assert!(found[0].value.unwrap() > 150.0, "{found:?}");
        assert!(found[0].hint.contains("less slack"), "{}", found[0].hint);
        let middle = fixture.solved.centreline_mm / 2.0;
        assert!((found[0].at_mm.unwrap() - middle).abs() < 0.1 * middle);
    }
}
