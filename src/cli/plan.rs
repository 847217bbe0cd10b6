//! `hosewright plan`.

use crate::engine::cutting::{Allowances, CuttingPlan, Remakes, ShoppingList};
use crate::export::{plan_csv, plan_json};

use super::args::PlanArgs;
use super::check::Checked;
use super::{Exit, Refusal, output, plan_text, sheet};

pub(super) fn run(args: &PlanArgs) -> Result<Exit, Refusal> {
    if let Some(out) = &args.csv {
        sheet::writable(&args.bay.file, out)?;
    }
    let checked = Checked::load(&args.bay)?;
    let (bay, option, solution) = (&checked.bay, checked.option(), &checked.solution);
    let allowances = Allowances { kerf_mm: args.kerf, trim_mm: args.trim };
    let plan = CuttingPlan::new(bay, option, solution, allowances);
    let list = ShoppingList::new(bay, option, solution, &plan);
    if let Some(out) = &args.csv {
        let csv = plan_csv(option, &list);
        output::file(out, csv.as_bytes())?;
    }
    let remakes = Remakes::new(bay, option, &plan);
    let printed = if args.json {
        plan_json(bay, option, &plan, (&list, &remakes))
    } else {
        plan_text::plan(bay, option, &plan, (&list, &remakes), checked.fails())
    };
    output::data(&printed)?;
    Ok(if checked.fails() > 0 || !plan.is_whole() { Exit::Failed } else { Exit::Fine })
}
