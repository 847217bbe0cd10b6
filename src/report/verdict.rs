//! How many faults, warnings and notes there are, and what that means for cutting: said the same everywhere.

use std::fmt::Write;

use crate::checks::Severity;

/// How many causes there are of each severity.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
#[allow(missing_docs, reason = "the names say it")]
pub struct Verdict {
    pub faults: usize,
    pub warnings: usize,
    pub notes: usize,
}

impl Verdict {
    /// Of one finding for each cause.
    pub fn of(severities: impl IntoIterator<Item = Severity>) -> Self {
        severities.into_iter().fold(Self::default(), |mut verdict, severity| {
            match severity {
                Severity::Fail => verdict.faults += 1,
                Severity::Warn => verdict.warnings += 1,
                Severity::Note => verdict.notes += 1,
            }
            verdict
        })
    }

    /// The worst there is.
    pub fn worst(self) -> Option<Severity> {
        let Self { faults, warnings, notes } = self;
        [(faults, Severity::Fail), (warnings, Severity::Warn), (notes, Severity::Note)]
            .into_iter()
            .find_map(|(count, severity)| (count > 0).then_some(severity))
    }

    /// `2 faults, 3 warnings`: the two worst kinds that there are; `all clear` where there is nothing.
    pub fn in_short(self) -> String {
        let parts = self.parts();
        if parts.is_empty() { "all clear".to_owned() } else { joined(&parts[..parts.len().min(2)]) }
    }

    /// What stands against cutting; empty where nothing does.
    pub fn stop(self) -> String {
        match (self.faults, self.warnings) {
            (0, 0) => String::new(),
            (0, _) => format!("Look at the {} first", many(self.warnings, Severity::Warn)),
            _ => format!("Do not cut yet: {}", self.in_short()),
        }
    }

    /// One sentence for the foot of a list.
    pub fn in_full(self) -> String {
        let parts = self.parts();
        let mut out = match self.worst() {
            Some(Severity::Fail) => "Do not cut yet: ".to_owned(),
            Some(Severity::Warn) => "No faults. Look at the warnings before cutting: ".to_owned(),
            _ => return format!("No faults, no warnings{}.", self.and_notes()),
        };
        let _ = write!(out, "{}.", joined(&parts));
        out
    }

    fn and_notes(self) -> String {
        if self.notes == 0 {
            String::new()
        } else {
            format!(", {}", many(self.notes, Severity::Note))
        }
    }

    fn parts(self) -> Vec<String> {
        let Self { faults, warnings, notes } = self;
        [(faults, Severity::Fail), (warnings, Severity::Warn), (notes, Severity::Note)]
            .into_iter()
            .filter(|(count, _)| *count > 0)
            .map(|(count, severity)| many(count, severity))
            .collect()
    }
}

fn many(count: usize, severity: Severity) -> String {
    let plural = if count == 1 { "" } else { "s" };
    format!("{count} {}{plural}", severity.noun())
}

fn joined(parts: &[String]) -> String {
    parts.join(", ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_verdict_says_what_to_do_first() {
        let of = |faults, warnings, notes| Verdict { faults, warnings, notes };
        assert_eq!(of(1, 2, 3).in_full(), "Do not cut yet: 1 fault, 2 warnings, 3 notes.");
        assert_eq!(
            of(0, 1, 0).in_full(),
            "No faults. Look at the warnings before cutting: 1 warning."
        );
        assert_eq!(of(0, 0, 1).in_full(), "No faults, no warnings, 1 note.");
        assert_eq!(of(0, 0, 0).in_full(), "No faults, no warnings.");
        assert_eq!(
            (of(2, 1, 4).in_short(), of(0, 0, 0).in_short()),
            ("2 faults, 1 warning".into(), "all clear".into())
        );
        assert_eq!(of(0, 2, 1).stop(), "Look at the 2 warnings first");
        assert_eq!(of(0, 0, 9).stop(), "");
        assert_eq!(Verdict::of([Severity::Note, Severity::Fail]), of(1, 0, 1));
        assert_eq!(of(0, 0, 2).worst(), Some(Severity::Note));
    }
}
