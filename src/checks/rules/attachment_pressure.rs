//! `attachment-pressure`: high-pressure hydraulics on screw-on or push-on ends.

use crate::checks::context::{RunContext, SIDES};
use crate::checks::{Finding, RuleInfo, Severity, Unit};
use crate::model::{Attachment, Mark, Service, Source};

pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "attachment-pressure",
    severity: Severity::Warn,
    title: "High pressure on screw-on or push-on ends",
    what: "Hydraulics (power-steering and hydraulic fluids; brake fluid as in a clutch, engine \
           oil, gear oil, ATF) above 70 bar (1000 psi) on an end that is screwed or pushed on. \
           The limit is this program's own caution: no standard that was read names one. It is \
           about where PTFE hose with one braid is rated from −10 up.",
    source: Source::fixed(
        Mark::Practice,
        "own caution; a trade article calls screw-on ends generally unsuited to high pressure, \
         another limits push-on ends to 350 psi",
    ),
};

/// At most one finding a run.
pub(in crate::checks) fn check(run: &RunContext<'_>) -> Vec<Finding> {
    judge(run).into_iter().collect()
}

fn judge(run: &RunContext<'_>) -> Option<Finding> {
    let service = &run.run.service;
    let bar =
        service.pressure_bar.filter(|_| service.is_hydraulic() && service.is_high_pressure())?;
    let by_hand: Vec<String> = SIDES
        .into_iter()
        .map(|side| (side, Attachment::of(run.end_kind(side), &run.hose.construction)))
        .filter(|(_, attachment)| !attachment.takes_a_press())
        .map(|(side, attachment)| format!("end {} is {}", side.letter(), attachment.word()))
        .collect();
    if by_hand.is_empty() {
        return None;
    }
    let (pressure, limit) = run.figures().pressures(bar, Service::HIGH_PRESSURE_BAR);
    Some(Finding {
        value: Some(bar),
        limit: Some(Service::HIGH_PRESSURE_BAR),
        unit: Unit::Bar,
        message: format!(
            "Hydraulics at {pressure}, caution limit {limit}: {}; a hose that lets go injures",
            by_hand.join(", "),
        ),
        hint: "Have a hose shop make and proof test this hose, or use ends that their manufacturer rates \
               for this hose and pressure. If they are crimped, enter that in the stock"
            .to_owned(),
        ..run.finding(&RULE)
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::fixture::{Fixture, run};
    use crate::model::{Construction, Fluid};

    fn found(fluid: Fluid, bar: f64, attachment: Option<Attachment>) -> Vec<Finding> {
        let fixture = Fixture::edited(|bay| {
            run(bay).service.fluid = Some(fluid);
            run(bay).service.pressure_bar = Some(bar);
            bay.stock.ends[0].attachment = attachment;
        });
        check(&fixture.context())
    }

    #[test]
    fn high_pressure_hydraulics_on_screwed_or_pushed_ends_are_warned_of() {
        for fluid in [Fluid::PowerSteering, Fluid::Atf, Fluid::Other("hydraulic-32".to_owned())] {
            assert_eq!(found(fluid.clone(), 70.0, None), []);
            let warned = found(fluid.clone(), 70.5, None);
            assert_eq!((warned[0].severity, warned[0].limit), (Severity::Warn, Some(70.0)));
            assert!(warned[0].message.contains("end A is screw-on, end B is screw-on"));
            assert!(
                warned[0].source.contains("own caution") && warned[0].source.contains("practice")
            );
            assert_eq!(found(fluid, 90.0, Some(Attachment::Crimped)), []);
        }
        assert_eq!(found(Fluid::Water, 90.0, None), []);
        let pushed = found(Fluid::GearOil, 90.0, Some(Attachment::PushOn));
        assert!(pushed[0].message.contains("end A is push-on"), "{}", pushed[0].message);
    }

    #[test]
    fn push_on_hose_takes_push_on_ends_where_the_stock_says_nothing() {
        let of = |hose: &Construction| Attachment::of(None, hose);
        assert_eq!(of(&Construction::PushOn), Attachment::PushOn);
        assert_eq!(of(&Construction::RubberBraid), Attachment::ScrewOn);
        let fixture = Fixture::edited(|bay| {
            bay.stock.ends[0].for_construction = Some(Construction::PushOn);
        });
        let end = &fixture.bay.stock.ends[0];
        assert_eq!(Attachment::of(Some(end), &Construction::PtfeBraid), Attachment::PushOn);
    }
}
