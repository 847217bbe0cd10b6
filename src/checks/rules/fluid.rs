//! `fluid`: the liner stands what the hose carries.

use crate::checks::context::{LinerIs, RunContext};
use crate::checks::{Finding, RuleInfo, Severity};
use crate::model::Fluid;
use crate::model::catalogue::compatibility::{self, Column, Entry, Rating};

/// The rule.
pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "fluid",
    severity: Severity::Fail,
    title: "Liner that does not stand the fluid",
    what: "The liner and the fluid in the fluids table: \"no\" fails, C warns, B and A/B are noted, \
           A passes. Braided rubber hose that does not name its liner is taken as NBR, and the \
           finding says so. Gear oil, power-steering fluid and hydraulic mineral oil are read as engine \
           oil and ATF. Where the liner or the fluid is not in the table the check is left out, and a note says so.",
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
            &format!("the liner of this hose is not known, and it carries {}", fluid.name()),
        ));
    };
    let Some(entry) = compatibility::lookup(liner, fluid) else {
        return Some(unchecked(run, &gap(liner, fluid)));
    };
    let severity = severity_of(entry.rating)?;
    Some(Finding {
        severity,
        other: Some(run.hose.id.clone()),
        message: message(liner, liner_is, fluid, entry),
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

fn message(liner: &str, liner_is: LinerIs, fluid: &Fluid, entry: Entry) -> String {
    let taken = match liner_is {
        LinerIs::Given => "",
        LinerIs::Taken => " (taken as NBR, because the hose does not name its liner)",
    };
    let column = entry
        .column
        .map(Column::heading)
        .filter(|heading| *heading != fluid.word())
        .map_or_else(String::new, |heading| format!(", read in the column \"{heading}\""));
    let verdict = match entry.rating {
        Rating::A => "stands it",
        Rating::AToB => "stands it well to fairly, by compound",
        Rating::B => "stands it with some effect",
        Rating::C => "stands it for a short time only",
        Rating::No => "does not stand it",
    };
    format!(
        "Carries {}{column}: a liner of {liner}{taken} is rated {} and {verdict}",
        fluid.name(),
        entry.rating.word(),
    )
}

fn hint(severity: Severity) -> &'static str {
    match severity {
        Severity::Fail => "Take a hose whose liner stands this fluid; its maker's word counts",
        Severity::Warn => "Take a better liner, or ask the hose's maker before relying on this one",
        Severity::Note => "Ask the hose's maker about this fluid and temperature",
    }
}

/// Why the table does not answer.
fn gap(liner: &str, fluid: &Fluid) -> String {
    if compatibility::liners().any(|known| known.eq_ignore_ascii_case(liner.trim())) {
        format!("the fluids table does not list {}", fluid.name())
    } else {
        format!("the fluids table does not list a liner of {liner}")
    }
}

fn unchecked(run: &RunContext<'_>, why: &str) -> Finding {
    Finding {
        severity: Severity::Note,
        other: Some(run.hose.id.clone()),
        message: format!("Whether the liner stands the fluid is left unchecked: {why}"),
        hint: "Ask the hose's maker".to_owned(),
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
    fn ptfe_stands_it_and_nothing_is_said() {
        assert_eq!(with(None, Construction::PtfeBraid, Fluid::Methanol), []);
        assert_eq!(with(None, Construction::PtfeBraid, Fluid::Air), []);
    }

    #[test]
    fn a_liner_that_is_taken_is_said_to_be() {
        let found = with(None, Construction::RubberBraid, Fluid::PetrolE10);
        assert!(found[0].message.contains("taken as NBR"), "{}", found[0].message);
        assert!(found[0].message.contains("column \"ethanol blends\""), "{}", found[0].message);
        assert!(found[0].message.contains("rated C"), "{}", found[0].message);
    }

    #[test]
    fn what_cannot_be_answered_is_said() {
        for (found, why) in [
            (with(None, Construction::PushOn, Fluid::Petrol), "liner of this hose is not known"),
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
