//! `hosewright cut_list`.

use crate::engine::cutting::{Allowances, CutList, Remakes, ShoppingList};
use crate::export::{cutlist_csv, cutlist_json};
use crate::units::{Length, LengthUnit};

use super::args::CutlistArgs;
use super::{Exit, Refusal, check, cutlist_text, output, target};

/// More than this is no kerf and no trim, but a slip of the fingers: an inch.
const MOST_ALLOWED_MM: f64 = 25.4;

pub(super) fn run(args: &CutlistArgs) -> Result<Exit, Refusal> {
    if let Some(out) = &args.csv {
        target::may_be_written(&args.bay.file, out, args.force)?;
    }
    let answer = check::load(&args.bay)?;
    let (bay, routing, solution) = (answer.bay(), answer.routing(), &answer.solution);
    let verdict = answer.told.verdict;
    let allowances = Allowances {
        kerf_mm: allowance("--kerf", args.kerf.as_deref(), bay.show_units)?,
        trim_mm: allowance("--trim", args.trim.as_deref(), bay.show_units)?,
    };
    let cut_list = CutList::new(bay, routing, solution, allowances);
    let list = ShoppingList::new(bay, routing, solution, &cut_list);
    if let Some(out) = &args.csv {
        let csv = cutlist_csv(routing, &list, bay.show_units);
        output::file(out, csv.as_bytes())?;
    }
    let remakes = Remakes::new(bay, routing, &cut_list);
    let printed = if args.json {
        cutlist_json(bay, routing, &cut_list, (&list, &remakes))
    } else {
        cutlist_text::cut_list(bay, routing, &cut_list, (&list, &remakes), verdict)
    };
    output::data(&printed)?;
    Ok(if verdict.faults > 0 || !cut_list.is_whole() { Exit::Failed } else { Exit::Fine })
}

/// What was typed for a kerf or a trim, mm; a bare number is in the bay's unit.
fn allowance(name: &str, typed: Option<&str>, unit: LengthUnit) -> Result<Option<f64>, Refusal> {
    let Some(typed) = typed else { return Ok(None) };
    let mm = Length::parse(typed, unit).map_err(|error| format!("{name}: {error}"))?.mm();
    if (0.0..=MOST_ALLOWED_MM).contains(&mm) {
        return Ok(Some(mm));
    }
    let most = Length::from_mm(MOST_ALLOWED_MM).show(unit);
    Err(format!("{name}: expected 0 to {most}"))
}
