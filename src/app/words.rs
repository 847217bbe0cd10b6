//! The words that several parts of the window share.

use std::sync::Arc;

use crate::checks::{Finding, Severity};
use crate::model::Run;
use crate::units::{Length, LengthUnit};

/// A dash size as users read it: `−6`.
pub(super) fn dash(dash: u32) -> String {
    format!("\u{2212}{dash}")
}

/// A name short enough for the drawing.
pub(super) fn short(name: &str) -> String {
    at_most(name, 24)
}

/// A text of at most so many characters.
pub(super) fn at_most(name: &str, most: usize) -> String {
    if name.chars().count() <= most {
        return name.to_owned();
    }
    let kept: String = name.chars().take(most.saturating_sub(1)).collect();
    format!("{}\u{2026}", kept.trim_end_matches([' ', ',']))
}

pub(super) fn heading(severity: Severity) -> &'static str {
    match severity {
        Severity::Fail => "Faults",
        Severity::Warn => "Warnings",
        Severity::Note => "Notes",
    }
}

/// "2 faults, 3 warnings"; the notes where there is nothing worse.
pub(super) fn counts(findings: &[Arc<Finding>]) -> String {
    let of = |severity| findings.iter().filter(|f| f.severity == severity).count();
    let parts: Vec<String> = [Severity::Fail, Severity::Warn, Severity::Note]
        .into_iter()
        .map(|severity| (severity, of(severity)))
        .filter(|(_, count)| *count > 0)
        .take(2)
        .map(|(severity, count)| counted(severity, count))
        .collect();
    if parts.is_empty() { "Nothing found".to_owned() } else { parts.join(", ") }
}

/// "1 fault", "3 warnings".
pub(super) fn counted(severity: Severity, count: usize) -> String {
    let word = match severity {
        Severity::Fail => "fault",
        Severity::Warn => "warning",
        Severity::Note => "note",
    };
    let plural = if count == 1 { "" } else { "s" };
    format!("{count} {word}{plural}")
}

pub(super) fn run_name(run: &Run) -> &str {
    run.shown_name()
}

/// What stands at the place of a finding: what it is, and what it should be.
pub(super) fn call_out(finding: &Finding, unit: LengthUnit) -> (String, String) {
    if let ("bend-radius", Some(value), Some(limit)) = (finding.rule, finding.value, finding.limit)
    {
        let show = |mm: f64| Length::from_mm(mm).show(unit);
        return (
            format!("bend radius {}", show(value)),
            format!("minimum {}, centre line", show(limit)),
        );
    }
    // The rest of the sentence stands in the card.
    let first = finding.message.split(';').next().unwrap_or_default();
    (first.trim().to_owned(), String::new())
}

/// The state of a hose in a few words, from its findings.
pub(super) fn verdict<'a>(
    findings: impl Iterator<Item = &'a Finding>,
) -> (Option<Severity>, String) {
    let (mut fails, mut warns, mut notes) = (0, 0, 0);
    for finding in findings {
        match finding.severity {
            Severity::Fail => fails += 1,
            Severity::Warn => warns += 1,
            Severity::Note => notes += 1,
        }
    }
    match (fails, warns, notes) {
        (0, 0, 0) => (None, "nothing found".to_owned()),
        (0, 0, n) => (Some(Severity::Note), counted(Severity::Note, n)),
        (0, n, _) => (Some(Severity::Warn), counted(Severity::Warn, n)),
        (n, _, _) => (Some(Severity::Fail), counted(Severity::Fail, n)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::Unit;

    fn finding(severity: Severity) -> Finding {
        Finding {
            rule: "bend-radius",
            severity,
            run: None,
            other: None,
            at_mm: None,
            point: None,
            value: Some(57.0),
            limit: Some(108.0),
            unit: Unit::Mm,
            message: "m".into(),
            hint: "h".into(),
            source: "s".into(),
        }
    }

    #[test]
    fn the_worst_decides_the_words() {
        use Severity::{Fail, Note, Warn};
        let of = |list: &[Severity]| {
            let findings: Vec<_> = list.iter().map(|s| finding(*s)).collect();
            verdict(findings.iter()).1
        };
        assert_eq!(of(&[]), "nothing found");
        assert_eq!(of(&[Note]), "1 note");
        assert_eq!(of(&[Note, Warn]), "1 warning");
        assert_eq!(of(&[Fail, Warn, Fail]), "2 faults");
    }

    #[test]
    fn a_tight_bend_says_its_figures() {
        let (said, limit) = call_out(&finding(Severity::Fail), LengthUnit::Mm);
        assert_eq!(said, "bend radius 57 mm");
        assert_eq!(limit, "minimum 108 mm, centre line");
    }
}
