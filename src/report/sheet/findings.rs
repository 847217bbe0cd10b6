//! Findings, as they are read on the sheet.

use std::sync::Arc;

use crate::checks::{Finding, Severity};
use crate::engine::RunSolution;
use crate::model::Run;
use crate::units::{Length, LengthUnit};

use super::{Counts, FindingLine};

/// The findings of one run (or of none), worst first; those alike keep their order.
pub(super) fn lines(
    findings: &[Arc<Finding>],
    run: Option<&str>,
    solution: Option<&RunSolution>,
    unit: LengthUnit,
) -> Vec<FindingLine> {
    let mut own: Vec<&Finding> =
        findings.iter().map(Arc::as_ref).filter(|f| f.run.as_deref() == run).collect();
    own.sort_by_key(|finding| finding.severity);
    own.into_iter().map(|finding| line(finding, solution, unit)).collect()
}

fn line(finding: &Finding, solution: Option<&RunSolution>, unit: LengthUnit) -> FindingLine {
    // On the bench, as the marks are.
    let at = finding.at_mm.zip(solution).map(|(at_mm, run)| run.on_bench_mm(at_mm));
    FindingLine {
        severity: finding.severity,
        rule: finding.rule,
        place: at.map_or_else(String::new, |mm| {
            format!("{} from cut end A", Length::from_mm(mm).show(unit))
        }),
        message: finding.message.clone(),
        hint: finding.hint.clone(),
        source: finding.source.clone(),
        follows: Vec::new(),
    }
}

/// How much of a hose is to be fixed before it is cut, and the worst of it; empty where nothing fails.
pub(crate) fn to_mend(run: &Run, findings: &[Arc<Finding>]) -> String {
    let own =
        findings.iter().map(Arc::as_ref).filter(|finding| finding.run.as_deref() == Some(&run.id));
    let fails: Vec<&Finding> = own.filter(|finding| finding.severity == Severity::Fail).collect();
    match fails[..] {
        [] => String::new(),
        [only] => only.message.clone(),
        [worst, ..] => {
            format!("{}; and {} more on the length sheet", worst.message, fails.len() - 1)
        }
    }
}

/// How many of each severity.
pub(crate) fn count<'a>(findings: impl Iterator<Item = &'a Finding>) -> Counts {
    findings.fold(Counts::default(), |mut counts, finding| {
        match finding.severity {
            Severity::Fail => counts.fails += 1,
            Severity::Warn => counts.warns += 1,
            Severity::Note => counts.notes += 1,
        }
        counts
    })
}
