//! `medium`: the liner stands what the hose carries.

use crate::checks::context::{LinerIs, RunContext};
use crate::checks::{Finding, RuleInfo, Severity};
use crate::model::Medium;
use crate::model::catalogue::media::{self, Column, Entry, Rating};

/// The rule.
pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "medium",
    severity: Severity::Fail,
    title: "Liner that does not stand the medium",
    what: "The liner and the medium in the media table: \"no\" fails, C warns, B and A/B are noted, \
           A passes. Braided rubber hose that does not name its liner is taken as NBR, and the \
           finding says so. Gear oil and power-steering fluid are read as engine oil and ATF. Where \
           the liner or the medium is not in the table the check is left out, and a note says so.",
    source: media::SOURCE,
};

/// At most one finding a run.
pub(in crate::checks) fn check(run: &RunContext<'_>) -> Vec<Finding> {
    judge(run).into_iter().collect()
}

fn judge(run: &RunContext<'_>) -> Option<Finding> {
    let medium = run.run.duty.medium.as_ref()?;
    let Some((liner, liner_is)) = run.liner() else {
        return Some(unchecked(
            run,
            &format!("the liner of this hose is not known, and it carries {}", medium.name()),
        ));
    };
    let Some(entry) = media::lookup(liner, medium) else {
        return Some(unchecked(run, &gap(liner, medium)));
    };
    let severity = severity_of(entry.rating)?;
    Some(Finding {
        severity,
        other: Some(run.hose.id.clone()),
        message: message(liner, liner_is, medium, entry),
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

fn message(liner: &str, liner_is: LinerIs, medium: &Medium, entry: Entry) -> String {
    let taken = match liner_is {
        LinerIs::Given => "",
        LinerIs::Taken => " (taken as NBR, because the hose does not name its liner)",
    };
    let column = entry
        .column
        .map(Column::heading)
        .filter(|heading| *heading != medium.word())
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
        medium.name(),
        entry.rating.word(),
    )
}

fn hint(severity: Severity) -> &'static str {
    match severity {
        Severity::Fail => "Take a hose whose liner stands this medium; its maker's word counts",
        Severity::Warn => "Take a better liner, or ask the hose's maker before relying on this one",
        Severity::Note => "Ask the hose's maker about this medium and temperature",
    }
}

/// Why the table does not answer.
fn gap(liner: &str, medium: &Medium) -> String {
    if media::liners().any(|known| known.eq_ignore_ascii_case(liner.trim())) {
        format!("the media table does not list {}", medium.name())
    } else {
        format!("the media table does not list a liner of {liner}")
    }
}

fn unchecked(run: &RunContext<'_>, why: &str) -> Finding {
    Finding {
        severity: Severity::Note,
        other: Some(run.hose.id.clone()),
        message: format!("Whether the liner stands the medium is left unchecked: {why}"),
        hint: "Ask the hose's maker".to_owned(),
        ..run.finding(&RULE)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::fixture::{Fixture, run};
    use crate::model::Construction;

    fn with(liner: Option<&str>, construction: Construction, medium: Medium) -> Vec<Finding> {
        let fixture = Fixture::edited(|bay| {
            run(bay).duty.medium = Some(medium);
            bay.stock.hoses[0].construction = construction;
            bay.stock.hoses[0].liner = liner.map(str::to_owned);
        });
        check(&fixture.context())
    }

    #[test]
    fn each_rating_has_its_severity() {
        let severity = |liner, medium| {
            with(Some(liner), Construction::RubberBraid, medium).first().map(|f| f.severity)
        };
        assert_eq!(severity("EPDM", Medium::Coolant), None);
        assert_eq!(severity("NBR", Medium::Petrol), Some(Severity::Note));
        assert_eq!(severity("NBR", Medium::Diesel), Some(Severity::Note));
        assert_eq!(severity("NBR", Medium::E85), Some(Severity::Warn));
        assert_eq!(severity("NBR", Medium::BrakeFluid), Some(Severity::Fail));
    }

    #[test]
    fn ptfe_stands_it_and_nothing_is_said() {
        assert_eq!(with(None, Construction::PtfeBraid, Medium::Methanol), []);
        assert_eq!(with(None, Construction::PtfeBraid, Medium::Air), []);
    }

    #[test]
    fn a_liner_that_is_taken_is_said_to_be() {
        let found = with(None, Construction::RubberBraid, Medium::PetrolE10);
        assert!(found[0].message.contains("taken as NBR"), "{}", found[0].message);
        assert!(found[0].message.contains("column \"ethanol blends\""), "{}", found[0].message);
        assert!(found[0].message.contains("rated C"), "{}", found[0].message);
    }

    #[test]
    fn what_cannot_be_answered_is_said() {
        for (found, why) in [
            (with(None, Construction::PushOn, Medium::Petrol), "liner of this hose is not known"),
            (with(Some("silicone"), Construction::PushOn, Medium::Water), "a liner of silicone"),
            (
                with(None, Construction::PtfeBraid, Medium::Other("chain oil".to_owned())),
                "does not list chain oil",
            ),
            (with(Some("NBR"), Construction::RubberBraid, Medium::Air), "does not list air"),
        ] {
            assert_eq!(found[0].severity, Severity::Note);
            assert!(found[0].message.contains(why), "{}", found[0].message);
        }
    }
}
