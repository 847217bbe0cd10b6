#![allow(clippy::unwrap_used, reason = "a test may stop where it stands")]

use std::path::Path;
use std::sync::Arc;

use super::*;
use crate::document::file;

fn answers() -> Vec<Answer> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo_projects");
    let mut answers = Vec::new();
    for name in ["faults-on-purpose", "trials-car", "diesel-launch"] {
        let bay = Arc::new(file::load(&folder.join(format!("{name}.bay.json"))).unwrap());
        let of = |place| Answer::of(Arc::clone(&bay), place).unwrap();
        answers.extend((0..bay.routings.len()).map(of));
    }
    answers
}

/// What a margin says is past its limit is a finding as well, and as bad: the card is of one mind.
#[test]
fn what_is_past_its_limit_is_found_too() {
    let (mut seen, mut past) = (0, 0);
    for answer in answers() {
        for place in 0..answer.routing().runs.len() {
            let all = margins(&answer, place);
            assert!(all.windows(2).all(|pair| pair[0].used >= pair[1].used));
            let verdict = answer.verdict_on(place);
            for margin in &all {
                seen += 1;
                assert_eq!(margin.past.is_some(), margin.used > 1.0 + 1e-6, "{margin:?}");
                if margin.past.is_some() {
                    past += 1;
                    let run = &answer.routing().runs[place].id;
                    assert!(verdict.faults + verdict.warnings > 0, "{run}: {margin:?}");
                    assert!(
                        margin.past != Some(Severity::Fail) || verdict.faults > 0,
                        "{run}: {margin:?}"
                    );
                }
            }
        }
    }
    assert!(seen > 40 && past > 5, "{seen} margins, {past} past their limits");
}

#[test]
fn a_pressure_is_compared_with_the_weakest_part() {
    let mut answer = answers().remove(1);
    let mut bay = Bay::clone(answer.bay());
    let (_, working) = weakest(&bay, &bay.routings[0].runs[0]).unwrap();
    bay.routings[0].runs[0].service.pressure_bar = Some(working * 1.5);
    answer = Answer::of(Arc::new(bay), 0).unwrap();
    let all = margins(&answer, 0);
    let pressure = all.iter().find(|margin| margin.name == "Pressure").unwrap();
    assert_eq!(pressure.past, Some(Severity::Fail));
    assert!((pressure.used - 1.5).abs() < 1e-9);
}
