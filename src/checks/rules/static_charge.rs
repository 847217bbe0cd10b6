//! `static`: a liner that conducts static charge away from fuel.

use crate::checks::context::RunContext;
use crate::checks::words::first_upper;
use crate::checks::{Finding, RuleInfo, Severity, Unit};
use crate::model::catalogue::static_charge;

pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "static",
    severity: Severity::Fail,
    title: "Fuel in a liner that does not conduct",
    what: "Fuel of any kind (petrol (gasoline), ethanol blends, methanol, diesel) in a PTFE \
           liner: a fault where the liner is said not to conduct, a warning where that is \
           unknown. In any other liner: a warning where it is said not to conduct; nothing where \
           that is unknown, since rubber fuel hose is commonly filled with carbon black (common \
           practice, not checked).",
    source: static_charge::SOURCE,
};

/// At most one finding a run.
pub(in crate::checks) fn check(run: &RunContext<'_>) -> Vec<Finding> {
    judge(run).into_iter().collect()
}

fn judge(run: &RunContext<'_>) -> Option<Finding> {
    let fluid = run.run.service.fluid.as_ref().filter(|fluid| fluid.is_fuel())?;
    let is_ptfe = run.liner().is_some_and(|(liner, _)| liner.eq_ignore_ascii_case("PTFE"));
    let conductive = run.run.conductive_liner.or(run.hose.conductive_liner);
    let severity = match (is_ptfe, conductive) {
        (_, Some(true)) | (false, None) => return None,
        (true, Some(false)) => Severity::Fail,
        (true, None) | (false, Some(false)) => Severity::Warn,
    };
    let (message, hint) = words(&run.figures().fluid(fluid), is_ptfe, conductive);
    Some(Finding {
        severity,
        other: Some(run.hose.id.clone()),
        unit: Unit::None,
        message,
        hint,
        ..run.finding(&RULE)
    })
}

fn words(fluid: &str, is_ptfe: bool, conductive: Option<bool>) -> (String, String) {
    let fluid = first_upper(fluid);
    let liner = if is_ptfe { "PTFE liner" } else { "liner" };
    if conductive.is_none() {
        return (
            format!(
                "{fluid} in a {liner} of unknown conductivity: static charge of fuel can spark",
            ),
            format!(
                "Ask the manufacturer whether the liner is conductive (to {:e} Ω per square), and say so at the \
                 hose: Liner",
                static_charge::CONDUCTIVE_TO_OHM_PER_SQUARE,
            ),
        );
    }
    (
        format!("{fluid} in a {liner} that does not conduct: static charge of fuel can spark"),
        "Select a hose with a conductive (antistatic) liner, and earth it through its ends"
            .to_owned(),
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::fixture::{Fixture, run};
    use crate::model::{Construction, Fluid};

    fn severity(
        fluid: Fluid,
        construction: Construction,
        conductive: Option<bool>,
    ) -> Option<Severity> {
        let fixture = Fixture::edited(|bay| {
            run(bay).service.fluid = Some(fluid);
            bay.stock.hoses[0].construction = construction;
            bay.stock.hoses[0].conductive_liner = conductive;
        });
        check(&fixture.context()).first().map(|found| found.severity)
    }

    #[test]
    fn fuel_in_ptfe() {
        let ptfe = |conductive| severity(Fluid::E85, Construction::PtfeBraid, conductive);
        assert_eq!(ptfe(Some(true)), None);
        assert_eq!(ptfe(Some(false)), Some(Severity::Fail));
        assert_eq!(ptfe(None), Some(Severity::Warn));
    }

    #[test]
    fn what_is_said_of_the_hose_itself_comes_before_its_table() {
        let of = |listed: Option<bool>, said: Option<bool>| {
            let fixture = Fixture::edited(|bay| {
                run(bay).service.fluid = Some(Fluid::Petrol);
                run(bay).conductive_liner = said;
                bay.stock.hoses[0].construction = Construction::PtfeBraid;
                bay.stock.hoses[0].conductive_liner = listed;
            });
            check(&fixture.context()).first().map(|found| found.severity)
        };
        assert_eq!(of(None, Some(true)), None);
        assert_eq!(of(None, Some(false)), Some(Severity::Fail));
        assert_eq!(of(Some(true), Some(false)), Some(Severity::Fail));
        assert_eq!(of(Some(false), None), Some(Severity::Fail));
    }

    #[test]
    fn fuel_in_rubber() {
        let rubber = |conductive| severity(Fluid::Diesel, Construction::RubberBraid, conductive);
        assert_eq!(rubber(None), None);
        assert_eq!(rubber(Some(false)), Some(Severity::Warn));
        assert_eq!(rubber(Some(true)), None);
    }

    #[test]
    fn what_is_not_fuel_is_left_alone() {
        assert_eq!(severity(Fluid::Coolant, Construction::PtfeBraid, Some(false)), None);
        let own = Fluid::Other("race fuel".to_owned());
        assert_eq!(severity(own, Construction::PtfeBraid, Some(false)), None);
    }
}
