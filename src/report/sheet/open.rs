//! What is open over all hoses, for the first page.

use super::{FindingLine, HoseSheet, Sheet};

impl Sheet {
    /// What has to be fixed or looked at, worst first, with its hose; those alike in the order of
    /// the hoses. Notes stand with their hoses only, findings about no hose in `bay_findings`.
    pub fn open_findings(&self) -> Vec<(&HoseSheet, &FindingLine)> {
        let all = || {
            self.hoses.iter().flat_map(|hose| hose.findings.iter().map(move |line| (hose, line)))
        };
        let of = |severity| all().filter(move |(_, line)| line.severity == severity);
        of("fail").chain(of("warn")).collect()
    }
}
