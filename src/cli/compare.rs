//! `hosewright compare`.

use std::sync::Arc;

use crate::document::file;
use crate::export::{CompareFormat, compare_json};
use crate::model::Bay;
use crate::report::answer::Answer;
use crate::report::compare::Comparison;
use crate::units::{quotable, shown_path};

use super::args::{CompareArgs, paper};
use super::{Exit, Refusal, check, compare_text, output, sheet, target};

pub(super) fn run(args: &CompareArgs) -> Result<Exit, Refusal> {
    let format = args.out.as_ref().map(|out| {
        target::may_be_written(&args.file, out, args.force)?;
        CompareFormat::of(out).map_err(|error| format!("cannot write {}: {error}", shown_path(out)))
    });
    let format = format.transpose()?;
    let bay = Arc::new(file::load(&args.file).map_err(|error| error.to_string())?);
    let paper = paper(args.paper, bay.show_units);
    let places = places(&bay, &args.routings)?;
    let answers = places.into_iter().filter_map(|place| Answer::of(Arc::clone(&bay), place));
    let answers: Vec<Arc<Answer>> = answers.map(Arc::new).collect();
    let info = sheet::info(&args.file, args.date.clone());
    let comparison = Comparison::new(&bay, &answers, info);
    if let (Some(out), Some(format)) = (&args.out, format) {
        let bytes = format.write(&comparison, paper).map_err(|error| error.to_string())?;
        output::file(out, &bytes)?;
    }
    let printed =
        if args.json { compare_json(&comparison) } else { compare_text::compare(&comparison) };
    output::data(&printed)?;
    Ok(Exit::Fine)
}

/// The places of the routings that were asked for; all where none were.
fn places(bay: &Bay, wanted: &[String]) -> Result<Vec<usize>, Refusal> {
    if bay.routings.len() < 2 {
        return Err("this bay has one routing only, so there is nothing to compare; give it a second one: in the window, Duplicate routing (Ctrl+Shift+D) copies the one in view, to be routed another way"
            .to_owned());
    }
    if wanted.is_empty() {
        return Ok((0..bay.routings.len()).collect());
    }
    let mut places: Vec<usize> = Vec::new();
    for id in wanted.iter().map(|id| id.trim()) {
        let place = check::find(bay, id)?;
        if places.contains(&place) {
            return Err(format!(
                "routing \"{}\" is named twice; name two or more that differ",
                quotable(id)
            ));
        }
        places.push(place);
    }
    if let [only] = places[..] {
        let others: Vec<&str> = bay.routings.iter().map(|routing| routing.id.as_str()).collect();
        return Err(format!(
            "to compare takes two routings or more, and \"{}\" is one; this bay has {}",
            bay.routings[only].id,
            others.join(", ")
        ));
    }
    Ok(places)
}
