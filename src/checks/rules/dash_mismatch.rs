//! `dash-mismatch`: hose, ends and ports of one size.

use crate::checks::context::{RunContext, SIDES};
use crate::checks::{Finding, RuleInfo, Severity, Unit};
use crate::model::{Mark, Side, Source, name_or};

pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "dash-mismatch",
    severity: Severity::Fail,
    title: "Sizes do not match",
    what: "The dash size of the hose against that of each port, where the port gives one; and \
           whether each named end fitting is made in that size.",
    source: Source::fixed(
        Mark::Published,
        "the dash size names the tube that the hose matches: FAA AMT Handbook – General p. 7-19",
    ),
};

/// Up to two findings an end: its port, its end fitting.
pub(in crate::checks) fn check(run: &RunContext<'_>) -> Vec<Finding> {
    SIDES.into_iter().flat_map(|side| port(run, side).into_iter().chain(end(run, side))).collect()
}

fn port(run: &RunContext<'_>, side: Side) -> Option<Finding> {
    let port = run.bay.port(&run.run.end(side).port)?;
    let (hose, port_dash) = (run.run.dash, port.dash?);
    if port_dash == hose {
        return None;
    }
    Some(Finding {
        other: Some(port.id.clone()),
        value: Some(f64::from(hose)),
        limit: Some(f64::from(port_dash)),
        unit: Unit::Dash,
        message: format!(
            "End {}: \u{2212}{hose} hose on {}, which is \u{2212}{port_dash}",
            side.letter(),
            name_or(&port.name, &port.id),
        ),
        hint: format!(
            "Select \u{2212}{port_dash} hose, or fit an adapter and enter the port's new size and seat"
        ),
        ..run.finding_at_end(&RULE, side)
    })
}

fn end(run: &RunContext<'_>, side: Side) -> Option<Finding> {
    let kind = run.end_kind(side)?;
    let dash = run.run.dash;
    if kind.sizes.iter().any(|size| size.dash == dash) {
        return None;
    }
    let sizes: std::collections::BTreeSet<u32> = kind.sizes.iter().map(|s| s.dash).collect();
    let list = sizes.iter().map(|d| format!("\u{2212}{d}")).collect::<Vec<_>>().join(", ");
    Some(Finding {
        other: Some(kind.id.clone()),
        value: Some(f64::from(dash)),
        unit: Unit::Dash,
        message: format!(
            "End {}: \u{2212}{dash} hose, {} is made in {}",
            side.letter(),
            name_or(&kind.name, &kind.id),
            if list.is_empty() { "no size" } else { &list },
        ),
        hint: format!("Select an end fitting made in \u{2212}{dash}"),
        ..run.finding_at_end(&RULE, side)
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::fixture::{Fixture, run};

    #[test]
    fn matching_sizes_and_ports_without_one_pass() {
        assert_eq!(check(&Fixture::z().context()), []);
        assert_eq!(check(&Fixture::edited(|bay| bay.ports[1].dash = None).context()), []);
    }

    #[test]
    fn a_port_of_another_size_is_named() {
        let fixture = Fixture::edited(|bay| bay.ports[1].dash = Some(8));
        let found = check(&fixture.context());
        assert_eq!(found.len(), 1);
        assert_eq!((found[0].value, found[0].limit), (Some(6.0), Some(8.0)));
        assert_eq!(found[0].other.as_deref(), Some("b"));
        assert_eq!(found[0].point, Some(fixture.bay.ports[1].at));
        assert!(found[0].message.contains("\u{2212}6 hose on b, which is \u{2212}8"));
    }

    #[test]
    fn an_end_measured_whole_that_does_not_come_in_the_size() {
        let fixture = Fixture::edited(|bay| {
            bay.stock.ends[0].sizes.iter_mut().for_each(|size| size.dash = 8);
            let run = run(bay);
            for end in [&mut run.from, &mut run.to] {
                (end.along_mm, end.across_mm, end.socket_mm) = (Some(21.0), Some(0.0), Some(24.0));
            }
        });
        let found = check(&fixture.context());
        assert_eq!(found.len(), 2);
        assert!(found[0].message.contains("is made in \u{2212}8"), "{}", found[0].message);
    }
}
