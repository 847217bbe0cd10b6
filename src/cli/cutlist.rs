//! `hosewright cut_list`.

use crate::engine::cutting::{Allowances, CutList, Remakes, ShoppingList};
use crate::export::{cutlist_csv, cutlist_json};

use super::args::CutlistArgs;
use super::{Exit, Refusal, check, cutlist_text, output, target};

pub(super) fn run(args: &CutlistArgs) -> Result<Exit, Refusal> {
    if let Some(out) = &args.csv {
        target::may_be_written(&args.bay.file, out, args.force)?;
    }
    let answer = check::load(&args.bay)?;
    let (bay, routing, solution) = (answer.bay(), answer.routing(), &answer.solution);
    let verdict = answer.told.verdict;
    let allowances = Allowances { kerf_mm: args.kerf, trim_mm: args.trim };
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
