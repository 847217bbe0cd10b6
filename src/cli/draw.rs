//! `hosewright draw`.

use crate::export::true_scale::{ViewDrawing, ViewFormat};
use crate::units::shown_path;

use super::args::DrawArgs;
use super::{Exit, Refusal, check, output, target};

pub(super) fn run(args: &DrawArgs) -> Result<Exit, Refusal> {
    target::writable(&args.bay.file, &args.out)?;
    let format = ViewFormat::of(&args.out.out)
        .map_err(|error| format!("cannot write {}: {error}", shown_path(&args.out.out)))?;
    let answer = check::load(&args.bay)?;
    let bytes = format.write(&ViewDrawing::new(&answer, args.view));
    target::is_no_part_of(answer.bay(), &args.bay.file, &args.out)?;
    output::file(&args.out.out, &bytes)?;
    output::wrote(
        &args.out.out,
        &format!("{} view of {}, 1 unit = 1 mm", args.view.word(), answer.routing_words()),
    );
    Ok(Exit::Fine)
}
