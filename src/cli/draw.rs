//! `hosewright draw`.

use crate::export::View;
use crate::export::true_scale::{Drawn, ViewDrawing, ViewFormat};
use crate::model::{Bay, Shape};

use super::args::DrawArgs;
use super::check::Checked;
use super::{Exit, Refusal, output, sheet};

pub(super) fn run(args: &DrawArgs) -> Result<Exit, Refusal> {
    sheet::writable(&args.bay.file, &args.out)?;
    let format = ViewFormat::of(&args.out)
        .map_err(|error| format!("cannot write {}: {error}", args.out.display()))?;
    let checked = Checked::load(&args.bay)?;
    let drawn = Drawn {
        bay: &checked.bay,
        option: checked.option(),
        solution: &checked.solution,
        findings: &checked.findings,
    };
    let bytes = format.write(&ViewDrawing::new(&drawn, args.view));
    output::file(&args.out, &bytes)?;
    if let Some(told) = without_keep_off(&checked.bay) {
        output::message(&told);
    }
    Ok(Exit::Fine)
}

/// What the layer `KEEP_OFF` lacks.
fn without_keep_off(bay: &Bay) -> Option<String> {
    let is_mesh = |shape: &Shape| matches!(shape, Shape::Mesh { .. });
    let meshes = bay.solids.iter().filter(|solid| is_mesh(&solid.shape));
    let names: Vec<&str> = meshes
        .filter(|solid| solid.keep_off_in_force_mm() > 0.0)
        .map(crate::model::Solid::shown_name)
        .collect();
    (!names.is_empty()).then(|| {
        format!("written, without the distance to keep of what is a mesh: {}", names.join(", "))
    })
}

/// A view as it is typed.
pub(super) fn view(typed: &str) -> Result<View, String> {
    View::of(typed).ok_or_else(|| "expected plan, side or front".to_owned())
}
