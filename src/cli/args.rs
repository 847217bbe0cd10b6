//! What can be typed.

use std::path::PathBuf;

use clap::{Parser, Subcommand, ValueEnum};

use crate::drawing::View;
use crate::export::{LabelKind, Paper};
use crate::units::LengthUnit;

const EXAMPLES: &str = "\
Examples:
  hosewright                                          open the window
  hosewright open demo_projects/NAME.bay.json         open it with a bay
  hosewright check my.bay.json                        lengths and findings
  hosewright sheet my.bay.json --out my-hoses.pdf     the length sheet
  hosewright labels my.bay.json --out my-labels.pdf   a label for each hose
  hosewright template my.bay.json feed --out feed.pdf one hose at full size
  hosewright cutlist my.bay.json                      cut list and shopping list
  hosewright compare my.bay.json                      the routings side by side
  hosewright draw my.bay.json --view plan --out my-plan.dxf    a view in true scale

Exit status: 0 no faults; 1 at least one fault; 2 something is wrong with the file or the call.";

const OPEN_EXAMPLE: &str = "\
Example:
  hosewright open my.bay.json";

const CHECK_EXAMPLE: &str = "\
Examples:
  hosewright check my.bay.json
  hosewright check my.bay.json --routing under --json > report.json

Exit status: 0 no faults; 1 at least one fault; 2 something is wrong with the file or the call.";

const SHEET_EXAMPLE: &str = "\
Examples:
  hosewright sheet my.bay.json --out my-hoses.pdf
  hosewright sheet my.bay.json --out my-hoses.pdf --paper letter
  hosewright sheet my.bay.json --out my-hoses.csv --routing under

The ending of the name says the format: .pdf is for the bench, .html for a browser, .csv has one
line for each hose, .json is for programs.

A file of the name is replaced where Hosewright wrote it; any other one only with --force.

Exit status: 0 written (whatever was found); 2 something is wrong with the file or the call.";

const LABELS_EXAMPLE: &str = "\
Examples:
  hosewright labels my.bay.json --out my-labels.pdf
  hosewright labels my.bay.json --out my-labels.pdf --routing under --paper letter
  hosewright labels my.bay.json --out my-tags.pdf --kind bench

Without --kind both are written, each on pages of its own: bench tags for the cut pieces, then labels
for the finished hoses.

A file of the name is replaced where Hosewright wrote it; any other one only with --force.

Exit status: 0 written (whatever was found); 2 something is wrong with the file or the call.";

const TEMPLATE_EXAMPLE: &str = "\
Examples:
  hosewright template my.bay.json feed --out feed.pdf
  hosewright template my.bay.json feed --out feed.pdf --routing under --paper a4

A route that lies flat is drawn flat. One in space is a bend table for a wire, and a straight strip at
full size to lay the wire on; a name in .csv is for the table alone, of any route. Print at 100 % and
check the two bars first, 100 mm or 4 in long. More than 50 pages need --yes, more than 200 are refused.

A file of the name is replaced where Hosewright wrote it; any other one only with --force.

Exit status: 0 written (whatever was found); 2 something is wrong with the file or the call.";

const CUTLIST_EXAMPLE: &str = "\
Examples:
  hosewright cutlist my.bay.json
  hosewright cutlist my.bay.json --routing under --kerf 2mm --csv order.csv
  hosewright cutlist my.bay.json --json > cutlist.json

A kerf or trim without a unit is in the units of the bay.

Hose on the shelf and for sale is what the bay file's stock lists; prices are in its own money.

A file of the name is replaced where Hosewright wrote it; any other one only with --force.

Exit status: 0 done; 1 at least one fault, or a hose cannot be cut from what there is;
2 something is wrong with the file or the call.";

const COMPARE_EXAMPLE: &str = "\
Examples:
  hosewright compare my.bay.json
  hosewright compare my.bay.json --routings A,B --out over-or-under.pdf
  hosewright compare my.bay.json --json > compare.json

One sentence says what each routing gains and costs; the table below it has every figure, the worst place of
each, and what is better. Unknown figures are called unknown. The ending of the name says the format of --out: .pdf, .html, .csv or .json.

A file of the name is replaced where Hosewright wrote it; any other one only with --force.

Exit status: 0 compared (whatever was found); 2 something is wrong with the file or the call.";

const DRAW_EXAMPLE: &str = "\
Examples:
  hosewright draw my.bay.json --view plan --out my-plan.dxf
  hosewright draw my.bay.json --view side --out my-side.svg --routing under

Coordinates are those of the bay, 1 unit = 1 mm. Plan: X to the right, Y up; side: X to the right,
Z up; front: Y to the right, Z up. The ending of the name says the format: .dxf is R12 with a layer
for each kind of thing, .svg has a group for each.

A file of the name is replaced where Hosewright wrote it; any other one only with --force.

Exit status: 0 written (whatever was found); 2 something is wrong with the file or the call.";

const HELP_EXAMPLE: &str = "\
Example:
  hosewright help sheet";

/// From an engine bay to a trustworthy hose length sheet
#[derive(Debug, Parser)]
#[command(name = "hosewright", version, about, after_help = EXAMPLES, disable_help_subcommand = true)]
pub(super) struct Args {
    #[command(subcommand)]
    pub(super) command: Option<Command>,
}

#[derive(Debug, Subcommand)]
pub(super) enum Command {
    /// Open the window with a bay
    #[command(after_help = OPEN_EXAMPLE)]
    Open {
        /// The bay file
        file: PathBuf,
    },
    /// Print lengths and findings
    #[command(after_help = CHECK_EXAMPLE)]
    Check(CheckArgs),
    /// Write the length sheet
    #[command(after_help = SHEET_EXAMPLE)]
    Sheet(SheetArgs),
    /// Write a bench tag and a label for each hose, several to a page
    #[command(after_help = LABELS_EXAMPLE)]
    Labels(LabelsArgs),
    /// Write one hose at full size over as many pages as it takes
    #[command(after_help = TEMPLATE_EXAMPLE)]
    Template(TemplateArgs),
    /// Print the cut list and the shopping list
    #[command(after_help = CUTLIST_EXAMPLE)]
    Cutlist(CutlistArgs),
    /// Print the routings side by side, and what is better
    #[command(after_help = COMPARE_EXAMPLE)]
    Compare(CompareArgs),
    /// Write a view in true scale
    #[command(after_help = DRAW_EXAMPLE)]
    Draw(DrawArgs),
    // Our own, for the parser's has no example.
    /// Print the help of the whole, or of one command
    #[command(after_help = HELP_EXAMPLE)]
    Help {
        /// The command
        command: Option<String>,
    },
}

/// A bay and one of its routings.
#[derive(Debug, clap::Args)]
pub(super) struct BayArgs {
    /// The bay file
    pub(super) file: PathBuf,
    /// Routing by its id, or its letter A, B …; the first where not given
    #[arg(long, value_name = "ID")]
    pub(super) routing: Option<String>,
}

/// The file to write.
#[derive(Debug, clap::Args)]
pub(super) struct OutArgs {
    /// The file to write; its ending says the format
    #[arg(long, value_name = "NAME")]
    pub(super) out: PathBuf,
    /// Replace a file of this name that Hosewright did not write
    #[arg(long)]
    pub(super) force: bool,
}

#[derive(Debug, clap::Args)]
pub(super) struct CheckArgs {
    #[command(flatten)]
    pub(super) bay: BayArgs,
    /// Print one JSON document instead of text
    #[arg(long)]
    pub(super) json: bool,
    /// Print each note in full
    #[arg(long, conflicts_with = "json")]
    pub(super) notes: bool,
    /// Print where each rule comes from
    #[arg(long, conflicts_with = "json")]
    pub(super) sources: bool,
}

#[derive(Debug, clap::Args)]
pub(super) struct SheetArgs {
    #[command(flatten)]
    pub(super) bay: BayArgs,
    #[command(flatten)]
    pub(super) out: OutArgs,
    /// The day to print on the sheet; today (UTC) where not given
    #[arg(long, value_name = "DAY")]
    pub(super) date: Option<String>,
    /// Paper of a PDF; letter for a bay in inches, a4 for one in millimetres where not given
    #[arg(long, value_enum, value_name = "SIZE")]
    pub(super) paper: Option<PaperArg>,
}

#[derive(Debug, clap::Args)]
pub(super) struct LabelsArgs {
    #[command(flatten)]
    pub(super) bay: BayArgs,
    /// finished: labels for finished hoses; bench: tags for the cut pieces; both where not given
    #[arg(long, value_enum, value_name = "KIND")]
    pub(super) kind: Option<LabelKindArg>,
    #[command(flatten)]
    pub(super) out: OutArgs,
    /// Paper; letter for a bay in inches, a4 for one in millimetres where not given
    #[arg(long, value_enum, value_name = "SIZE")]
    pub(super) paper: Option<PaperArg>,
}

#[derive(Debug, clap::Args)]
pub(super) struct TemplateArgs {
    #[command(flatten)]
    pub(super) bay: BayArgs,
    /// Id of the hose, or its name
    pub(super) run: String,
    /// Write more than 50 pages without asking (never more than 200)
    #[arg(long)]
    pub(super) yes: bool,
    #[command(flatten)]
    pub(super) out: OutArgs,
    /// The day to print on it; today (UTC) where not given
    #[arg(long, value_name = "DAY")]
    pub(super) date: Option<String>,
    /// Paper; letter for a bay in inches, a4 for one in millimetres where not given
    #[arg(long, value_enum, value_name = "SIZE")]
    pub(super) paper: Option<PaperArg>,
}

/// What labels are for, as it is typed.
#[derive(Debug, Clone, Copy, ValueEnum)]
pub(super) enum LabelKindArg {
    Finished,
    Bench,
}

impl From<LabelKindArg> for LabelKind {
    fn from(arg: LabelKindArg) -> Self {
        match arg {
            LabelKindArg::Finished => Self::Finished,
            LabelKindArg::Bench => Self::Bench,
        }
    }
}

/// Paper as it is typed.
#[derive(Debug, Clone, Copy, ValueEnum)]
pub(super) enum PaperArg {
    A4,
    Letter,
}

/// The paper that was asked for; else the one usual for the bay's unit.
pub(super) fn paper(asked: Option<PaperArg>, unit: LengthUnit) -> Paper {
    asked.map_or_else(|| Paper::usual_for(unit), Paper::from)
}

impl From<PaperArg> for Paper {
    fn from(arg: PaperArg) -> Self {
        match arg {
            PaperArg::A4 => Self::A4,
            PaperArg::Letter => Self::Letter,
        }
    }
}

#[derive(Debug, clap::Args)]
pub(super) struct CutlistArgs {
    #[command(flatten)]
    pub(super) bay: BayArgs,
    /// What one cut takes away; 3 mm, in a bay in inches 1/8 in, where not given
    #[arg(long, value_name = "LENGTH")]
    pub(super) kerf: Option<String>,
    /// What each piece is cut longer, to dress its ends; by the bore where not given
    #[arg(long, value_name = "LENGTH")]
    pub(super) trim: Option<String>,
    /// Print one JSON document instead of text
    #[arg(long)]
    pub(super) json: bool,
    /// Write the shopping list to this file too
    #[arg(long, value_name = "FILE")]
    pub(super) csv: Option<PathBuf>,
    /// Replace a file of this name that Hosewright did not write
    #[arg(long)]
    pub(super) force: bool,
}

#[derive(Debug, clap::Args)]
pub(super) struct CompareArgs {
    /// The bay file
    pub(super) file: PathBuf,
    /// Routings by id or letter, two or more, with commas between; all of them where not given
    #[arg(long, value_name = "ID,ID", value_delimiter = ',')]
    pub(super) routings: Vec<String>,
    /// Print one JSON document instead of text
    #[arg(long)]
    pub(super) json: bool,
    /// Write it on pages (NAME.pdf, NAME.html) or as a table (NAME.csv, NAME.json) too
    #[arg(long, value_name = "NAME")]
    pub(super) out: Option<PathBuf>,
    /// Replace a file of this name that Hosewright did not write
    #[arg(long)]
    pub(super) force: bool,
    /// The day to print on the page; today (UTC) where not given
    #[arg(long, value_name = "DAY")]
    pub(super) date: Option<String>,
    /// Paper of a NAME.pdf; letter for a bay in inches, a4 for one in millimetres where not given
    #[arg(long, value_enum, value_name = "SIZE")]
    pub(super) paper: Option<PaperArg>,
}

#[derive(Debug, clap::Args)]
pub(super) struct DrawArgs {
    #[command(flatten)]
    pub(super) bay: BayArgs,
    /// plan, side or front
    #[arg(long, value_name = "VIEW", value_parser = view)]
    pub(super) view: View,
    #[command(flatten)]
    pub(super) out: OutArgs,
}

/// A view as it is typed.
fn view(typed: &str) -> Result<View, String> {
    View::of(typed).ok_or_else(|| "expected plan, side or front".to_owned())
}

#[cfg(test)]
mod tests {
    use clap::CommandFactory;

    #[test]
    fn the_arguments_are_sound() {
        super::Args::command().debug_assert();
    }

    #[test]
    fn every_help_has_an_example() {
        let mut command = super::Args::command();
        assert!(command.render_help().to_string().contains("Example"));
        for sub in command.get_subcommands_mut() {
            assert!(sub.render_help().to_string().contains("Example"), "{}", sub.get_name());
        }
    }
}
