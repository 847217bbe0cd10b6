//! How rough the wall is that a liquid flows along.

use crate::model::{Construction, HoseKind, Mark, Source};

/// Where the roughness of a PTFE liner comes from.
const SOURCE_PTFE: Source =
    Source::fixed(Mark::Practice, "drawn plastic tube; no primary source for PTFE hose");
/// Where the roughness of a rubber liner comes from.
const SOURCE_RUBBER: Source = Source::fixed(Mark::Practice, "smooth rubber hose");

/// mm (common practice).
const PTFE_MM: f64 = 0.0015;
/// mm (common practice).
const RUBBER_MM: f64 = 0.010;

/// Rubbers of the fluids table.
const RUBBERS: [&str; 4] = ["NBR", "EPDM", "FKM", "CPE"];

/// Roughness of a hose's liner in mm and where it comes from: by the liner that the hose names, else by
/// its construction. None where neither is known.
pub fn roughness_mm(hose: &HoseKind) -> Option<(f64, Source)> {
    let is_word = |word: &str, liner: &str| liner.trim().eq_ignore_ascii_case(word);
    let is_rubber = match (hose.liner.as_deref(), &hose.construction) {
        (Some(liner), _) if is_word("PTFE", liner) => false,
        (Some(liner), _) if RUBBERS.iter().any(|rubber| is_word(rubber, liner)) => true,
        (Some(_), _) | (None, Construction::Other(_)) => return None,
        (None, Construction::PtfeBraid) => false,
        (None, Construction::RubberBraid | Construction::PushOn) => true,
    };
    Some(if is_rubber { (RUBBER_MM, SOURCE_RUBBER) } else { (PTFE_MM, SOURCE_PTFE) })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::catalogue;

    fn with(liner: Option<&str>, construction: Construction) -> Option<f64> {
        let hose = HoseKind {
            liner: liner.map(str::to_owned),
            construction,
            ..catalogue::hose("ptfe-100r14").unwrap().clone()
        };
        roughness_mm(&hose).map(|(mm, _)| mm)
    }

    #[test]
    fn the_liner_goes_before_the_construction() {
        assert_eq!(with(None, Construction::PtfeBraid), Some(PTFE_MM));
        assert_eq!(with(None, Construction::PushOn), Some(RUBBER_MM));
        assert_eq!(with(Some(" ptfe"), Construction::RubberBraid), Some(PTFE_MM));
        assert_eq!(with(Some("NBR"), Construction::PtfeBraid), Some(RUBBER_MM));
        assert_eq!(with(None, Construction::Other("metal".to_owned())), None);
        assert_eq!(with(Some("silicone"), Construction::RubberBraid), None);
    }
}
