//! `fluid`: a liner suited to what the hose carries.

use crate::checks::context::{LinerIs, RunContext};
use crate::checks::figures::Figures;
use crate::checks::{Finding, RuleInfo, Severity};
use crate::model::Fluid;
use crate::model::catalogue::compatibility::{self, Column, Entry, Rating};

pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "fluid",
    severity: Severity::Fail,
    title: "Liner and fluid",
    what: "Liner and fluid in the fluids table: \"no\" is a fault, C a warning, B and A/B a note, \
           A passes. Braided rubber hose that does not name its liner is assumed to be NBR, and \
           the finding says so. Gear oil, power-steering fluid and hydraulic mineral oil are \
           read as engine oil and ATF. Where the table has no such liner or fluid, a note says \
           that it is not checked.",
    source: compatibility::SOURCE,
};

/// At most one finding a run.
pub(in crate::checks) fn check(run: &RunContext<'_>) -> Vec<Finding> {
    judge(run).into_iter().collect()
}

fn judge(run: &RunContext<'_>) -> Option<Finding> {
    let fluid = run.run.service.fluid.as_ref()?;
    let Some((liner, liner_is)) = run.liner() else {
        return Some(unchecked(
            run,
            &format!("liner of this hose unknown, fluid {}", run.figures().fluid(fluid)),
        ));
    };
    let Some(entry) = compatibility::lookup(liner, fluid) else {
        return Some(unchecked(run, &gap(run.figures(), liner, fluid)));
    };
    let severity = severity_of(entry.rating)?;
    Some(Finding {
        severity,
        other: Some(run.hose.id.clone()),
        message: message(run.figures(), (liner, liner_is), fluid, entry),
        hint: hint(severity).to_owned(),
        source: entry.source.to_string(),
        ..run.finding(&RULE)
    })
}

fn severity_of(rating: Rating) -> Option<Severity> {
    match rating {
        Rating::A => None,
        Rating::AToB | Rating::B => Some(Severity::Note),
        Rating::C => Some(Severity::Warn),
        Rating::No => Some(Severity::Fail),
    }
}

fn message(
    figures: Figures,
    (liner, liner_is): (&str, LinerIs),
    fluid: &Fluid,
    entry: Entry,
) -> String {
    let assumed = match liner_is {
        LinerIs::Given => "",
        LinerIs::Assumed => " (assumed, the hose does not name its liner)",
    };
    let column = entry
        .column
        .map(Column::heading)
        .filter(|heading| *heading != fluid.word())
        .map_or_else(String::new, |heading| format!(" (column \"{heading}\")"));
    let verdict = match entry.rating {
        Rating::A => "suited",
        Rating::AToB => "good to fair, by compound",
        Rating::B => "fair, some effect",
        Rating::C => "poor, for a short time only",
        Rating::No => "not suited",
    };
    format!(
        "{liner} liner{assumed} with {}{column}: rated {}, {verdict}",
        figures.fluid(fluid),
        entry.rating.word(),
    )
}

fn hint(severity: Severity) -> &'static str {
    match severity {
        Severity::Fail => {
            "Select a hose with a liner for this fluid. Its manufacturer's figures come first"
        }
        Severity::Warn => {
            "Select a better liner, or ask the manufacturer before you rely on this one"
        }
        Severity::Note => "Ask the manufacturer about this fluid and temperature",
    }
}

/// Why the table does not answer.
fn gap(figures: Figures, liner: &str, fluid: &Fluid) -> String {
    if compatibility::liners().any(|known| known.eq_ignore_ascii_case(liner.trim())) {
        format!("the fluids table does not list {}", figures.fluid(fluid))
    } else {
        format!("the fluids table does not list a liner of {liner}")
    }
}

fn unchecked(run: &RunContext<'_>, why: &str) -> Finding {
    Finding {
        severity: Severity::Note,
        other: Some(run.hose.id.clone()),
        message: format!("Liner not checked against the fluid: {why}"),
        hint: "Ask the manufacturer of the hose".to_owned(),
        ..run.finding(&RULE)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::fixture::{Fixture, run};
    use crate::model::Construction;

    fn with(liner: Option<&str>, construction: Construction, fluid: Fluid) -> Vec<Finding> {
        let fixture = Fixture::edited(|bay| {
            run(bay).service.fluid = Some(fluid);
            bay.stock.hoses[0].construction = construction;
            bay.stock.hoses[0].liner = liner.map(str::to_owned);
        });
        check(&fixture.context())
    }

    #[test]
    fn each_rating_has_its_severity() {
        let severity = |liner, fluid| {
            with(Some(liner), Construction::RubberBraid, fluid).first().map(|f| f.severity)
        };
        assert_eq!(severity("EPDM", Fluid::Coolant), None);
        assert_eq!(severity("NBR", Fluid::Petrol), Some(Severity::Note));
        assert_eq!(severity("NBR", Fluid::Diesel), Some(Severity::Note));
        assert_eq!(severity("NBR", Fluid::E85), Some(Severity::Warn));
        assert_eq!(severity("NBR", Fluid::BrakeFluid), Some(Severity::Fail));
    }

    #[test]
    fn ptfe_is_suited_and_nothing_is_said() {
        assert_eq!(with(None, Construction::PtfeBraid, Fluid::Methanol), []);
        assert_eq!(with(None, Construction::PtfeBraid, Fluid::Air), []);
    }

    #[test]
    fn a_liner_that_is_assumed_is_said_to_be() {
        let found = with(None, Construction::RubberBraid, Fluid::PetrolE10);
        assert!(found[0].message.starts_with("NBR liner (assumed, "), "{}", found[0].message);
        assert!(found[0].message.contains("column \"ethanol blends\""), "{}", found[0].message);
        assert!(found[0].message.contains("rated C"), "{}", found[0].message);
    }

    #[test]
    fn what_cannot_be_answered_is_said() {
        for (found, why) in [
            (with(None, Construction::PushOn, Fluid::Petrol), "liner of this hose unknown"),
            (with(Some("silicone"), Construction::PushOn, Fluid::Water), "a liner of silicone"),
            (
                with(None, Construction::PtfeBraid, Fluid::Other("chain oil".to_owned())),
                "does not list chain oil",
            ),
            (with(Some("NBR"), Construction::RubberBraid, Fluid::Air), "does not list air"),
        ] {
            assert_eq!(found[0].severity, Severity::Note);
            assert!(found[0].message.contains(why), "{}", found[0].message);
        }
    }
}
