//! How bad it is to miss a limit: a limit from memory or a typical one does not decide by a sixteenth of an inch.

use super::{Finding, Severity};
use crate::model::{Mark, Source};

/// A miss by less than this share of a doubtful limit is a warning.
const DOUBT: f64 = 0.05;

/// A fault, but a warning where the limit is from memory of a standard or a typical figure and `value` misses it
/// by less than 5 %.
pub fn severity_past_limit(value: f64, limit: f64, source: &Source) -> Severity {
    let miss = (value - limit).abs();
    if source.mark.is_doubtful() && miss < DOUBT * limit.abs() {
        Severity::Warn
    } else {
        Severity::Fail
    }
}

/// The finding with the severity of [`severity_past_limit`]; a warning says why it is no fault.
pub(super) fn with_limit_severity(mut finding: Finding, source: &Source) -> Finding {
    let (Some(value), Some(limit)) = (finding.value, finding.limit) else { return finding };
    finding.severity = severity_past_limit(value, limit, source);
    if finding.severity == Severity::Warn {
        finding.message.push_str("; ");
        finding.message.push_str(why(source.mark));
    }
    finding
}

fn why(mark: Mark) -> &'static str {
    match mark {
        Mark::Typical => "limit from a typical figure: measure your hose",
        _ => "limit from memory of the standard: check it against your hose",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_limit_from_memory_does_not_decide_by_a_sixteenth() {
        let of = |mark, value| severity_past_limit(value, 100.0, &Source::fixed(mark, ""));
        for mark in [Mark::Memory, Mark::Typical] {
            assert_eq!((of(mark, 95.1), of(mark, 104.9)), (Severity::Warn, Severity::Warn));
            assert_eq!((of(mark, 95.0), of(mark, 105.0)), (Severity::Fail, Severity::Fail));
        }
        for mark in [Mark::Measured, Mark::BayFile, Mark::Published, Mark::Practice] {
            assert_eq!(of(mark, 99.9), Severity::Fail);
        }
        let cold = severity_past_limit(-56.0, -54.0, &Source::fixed(Mark::Memory, ""));
        assert_eq!(cold, Severity::Warn);
        assert_eq!(
            severity_past_limit(-0.1, 0.0, &Source::fixed(Mark::Memory, "")),
            Severity::Fail
        );
    }
}
