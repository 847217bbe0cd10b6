//! The finished sheet: everything decided and put in words. Exporters write it down, no more.

mod build;
mod cautions;
mod clock;
mod ends;
mod findings;
mod flow;
mod hose;
mod installed;
mod leak_test;
mod marks;
mod pages;
mod record;
mod sleeves;
mod steps;
mod words;

pub use clock::{direction_in_words, on_the_clock};
pub use flow::FlowFigures;
pub use installed::{lengths_in_words, needed_in_words, spare_in_words, with_position};
pub use record::longer_in_words;

pub use crate::report::blocks::Fact;
pub(crate) use findings::stop_in_words;
pub(crate) use record::untested;
pub(crate) use words::{bare_gap, dash_text};

use std::path::Path;

use crate::units::{Length, LengthUnit, escaped, shown_name};

use crate::checks::Severity;
use crate::drawing::Drawing;
use crate::report::check::Report;
use crate::report::verdict::Verdict;

/// What the sheet cannot know by itself.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct SheetInfo {
    /// The day, as it is to be printed.
    pub date: Option<String>,
    /// Name of the bay file, without its folder.
    pub file_name: Option<String>,
    /// Whether acceptable cut lengths are worked out, which takes longest: only where they are printed.
    pub with_lengths: bool,
}

impl SheetInfo {
    /// Of the bay in this file, if it is in one, for this day.
    pub fn of(path: Option<&Path>, date: Option<String>) -> Self {
        Self {
            date: date.map(|date| escaped(&date).into_owned()),
            file_name: path.filter(|path| path.file_name().is_some()).map(shown_name),
            with_lengths: true,
        }
    }

    /// For what prints no acceptable lengths: labels and tables.
    #[must_use]
    pub fn without_lengths(self) -> Self {
        Self { with_lengths: false, ..self }
    }
}

/// The length sheet of one routing of a bay.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet {
    /// Title of the bay.
    pub title: String,
    /// The builder's notes.
    pub notes: String,
    /// Id of the routing.
    pub routing_id: String,
    /// Name of the routing.
    pub routing: String,
    /// From [`SheetInfo`].
    pub info: SheetInfo,
    /// The unit that comes first.
    pub unit: LengthUnit,
    /// The hoses, in the order of the bay.
    pub hoses: Vec<HoseSheet>,
    /// How many hoses the routing has, those left out included.
    pub hose_count: usize,
    /// Hoses that could not be measured, and why; none of a loaded file.
    pub left_out: Vec<String>,
    /// Findings about no hose in particular.
    pub bay_findings: Vec<FindingLine>,
    /// One for each cause.
    pub verdict: Verdict,
    /// Figures that nobody measured, with their sources.
    pub not_measured: Vec<String>,
    /// The positions of the moving groups, by their numbers from 1; empty where nothing moves.
    pub positions: Vec<String>,
    /// How many hoses are tested, and which are not.
    pub leak_tests: String,
    /// What the sheet does not claim.
    pub limits: Vec<String>,
    /// The same as `check --json` prints.
    pub report: Report,
}

/// A length with its words in both units.
#[derive(Debug, Clone, PartialEq)]
pub struct Shown {
    /// Exact.
    pub mm: f64,
    /// In the bay's unit.
    pub main: String,
    /// In the other unit.
    pub other: String,
}

impl Shown {
    /// To the nearest step that is shown.
    fn nearest(mm: f64, unit: LengthUnit) -> Self {
        let length = Length::from_mm(mm);
        Self { mm, main: length.show(unit), other: length.show(unit.other()) }
    }

    /// Rounded up, for the bench.
    fn bench(mm: f64, unit: LengthUnit) -> Self {
        let length = Length::from_mm(mm);
        Self { mm, main: length.bench(unit), other: length.bench(unit.other()) }
    }
}

/// One hose.
#[derive(Debug, Clone, PartialEq)]
pub struct HoseSheet {
    /// Its id.
    pub id: String,
    /// Its name; its id where it has none.
    pub name: String,
    /// From 1.
    pub number: usize,
    /// Port at end A.
    pub from: String,
    /// Port at end B.
    pub to: String,
    /// Dash number.
    pub dash: u32,
    /// Name of the hose.
    pub hose: String,
    /// Size and hose, for a heading: `−6 PTFE, one stainless braid`.
    pub size_and_kind: String,
    /// Fluid, pressure, temperature, in words.
    pub service: String,
    /// The fluid alone, in words.
    pub carries: String,
    /// The working pressure alone, in words.
    pub pressure: String,
    /// What stands on the finished hose besides.
    pub finished: FinishedHose,
    /// The exact figures.
    pub figures: Figures,
    /// What to cut.
    pub cut: Shown,
    /// How far off it may be.
    pub tolerance: Shown,
    /// The same in both units.
    pub tolerance_words: String,
    /// Where `tolerance` comes from.
    pub tolerance_source: String,
    /// Why not to cut yet, worst first; empty where nothing fails.
    pub stop: Vec<String>,
    /// One word for the summary.
    pub state: String,
    /// What is asked for at the bench: what the cut length is made of, and how near it comes to its limits.
    pub essentials: Vec<Fact>,
    /// The same and what else is known of the hose, for looking up.
    pub breakdown: Vec<Fact>,
    /// How it will really lie, and what other lengths would do; empty where that was not worked out.
    pub installed: Vec<Fact>,
    /// What its flow takes, or why that is not known; empty where no flow is given.
    pub flow: Vec<Fact>,
    /// The measured length against the computed one.
    pub dry_fit: String,
    /// What to mark, from cut end A.
    pub marks: Vec<Mark>,
    /// Both ends: A, B.
    pub ends: [EndSheet; 2],
    /// How the ends stand to each other.
    pub clock: Clock,
    /// Torque of the nuts, one line for each table; empty where no table lists the size.
    pub torque: Vec<Fact>,
    /// What to beware of.
    pub cautions: Vec<Fact>,
    /// What to do on the bench, in order.
    pub steps: Vec<String>,
    /// How it is tested.
    pub leak_test: Vec<Fact>,
    /// What the proof test stores; empty where that is unknown or nobody's here.
    pub stored: Vec<Fact>,
    /// Whether it is tight, in short.
    pub test_state: String,
    /// The same with what follows.
    pub test_words: String,
    /// Whether no test of it is written down.
    pub is_to_be_tested: bool,
    /// Its state for programs: `passed`, `failed`, `incomplete`, `not-tested`.
    pub test_key: String,
    /// What was written down of how it was made and tested; empty where nothing was.
    pub record: Vec<Fact>,
    /// What was found, worst first.
    pub findings: Vec<FindingLine>,
    /// Lines to be filled in by hand.
    pub blanks: Vec<String>,
    /// Centre line and slack as a bar.
    pub bar: Drawing,
    /// The hose laid straight.
    pub strip: Drawing,
    /// The route in its views, from large to small.
    pub route: Vec<Drawing>,
}

/// What a finished hose says of itself.
#[derive(Debug, Clone, PartialEq)]
pub struct FinishedHose {
    /// From seat to seat, laid straight: as measured, else as calculated.
    pub overall: Shown,
    /// Whether that was measured on the finished hose.
    pub is_measured: bool,
    /// The working pressure of its weakest part, in words.
    pub rating: String,
    /// What it is proved at, or the vacuum that it is held at, in words.
    pub proof: String,
    /// Which of the two that is.
    pub proof_of: &'static str,
    /// Lot of the hose; empty where it was not written down.
    pub lot: String,
    /// The day it was made; empty where it was not written down.
    pub made_on: String,
    /// The day to replace it by; empty where it was not written down.
    pub replace_by: String,
}

impl FinishedHose {
    /// How its overall length is meant.
    pub fn overall_of(&self) -> &'static str {
        if self.is_measured {
            "overall, seat to seat laid straight, measured"
        } else {
            "overall, seat to seat laid straight, calculated"
        }
    }
}

/// The exact figures of a hose, mm and degrees.
#[derive(Debug, Clone, PartialEq)]
#[allow(missing_docs, reason = "the names are the contract's own")]
pub struct Figures {
    pub centreline_mm: f64,
    pub slack_pct: f64,
    pub slack_mm: f64,
    pub cut_length_mm: f64,
    pub bench_mm: i64,
    pub bench_inch: String,
    pub bench_inch_decimal: f64,
    pub overall_mm: f64,
    pub outside_mm: f64,
    pub min_radius_mm: Option<f64>,
    pub radius_limit_mm: f64,
    pub clearance: Option<Clearance>,
    pub dry_fit_mm: Option<f64>,
    pub fluid: Option<String>,
    pub pressure_bar: Option<f64>,
    pub temperature_c: Option<f64>,
    pub flow_lpm: Option<f64>,
    pub flow: Option<FlowFigures>,
}

/// The tightest clearance of a hose as drawn.
#[derive(Debug, Clone, PartialEq)]
pub struct Clearance {
    /// Id of the obstacle.
    pub obstacle: String,
    /// Its name; its id where it has none.
    pub name: String,
    /// Surface to surface; negative where they cut into each other.
    pub gap_mm: f64,
    /// The gap to keep.
    pub min_clearance_mm: f64,
    /// Along the drawn hose from `E_A`.
    pub at_mm: f64,
}

/// A mark on the hose.
#[derive(Debug, Clone, PartialEq)]
pub struct Mark {
    /// What is marked.
    pub kind: MarkKind,
    /// What it is, in words.
    pub word: String,
    /// The same of a bend, without saying that it is one.
    pub short: String,
    /// From cut end A.
    pub from_a: Shown,
}

/// What a mark is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MarkKind {
    /// A cut end.
    Cut,
    /// Where the hose comes out of a socket.
    SocketEdge,
    /// The middle of a clamp.
    Clamp,
    /// The middle of a bend; for information.
    Bend,
}

impl MarkKind {
    /// Its word in the machine-readable sheet.
    pub fn word(self) -> &'static str {
        match self {
            Self::Cut => "cut",
            Self::SocketEdge => "socket-edge",
            Self::Clamp => "clamp",
            Self::Bend => "bend",
        }
    }
}

/// One end of a hose.
#[derive(Debug, Clone, PartialEq)]
pub struct EndSheet {
    /// `A` or `B`.
    pub letter: &'static str,
    /// The port's name.
    pub port: String,
    /// The fitting's name.
    pub fitting: String,
    /// 0 straight … 180.
    pub angle_deg: f64,
    /// The angle in words.
    pub angle: String,
    /// How it holds the hose, in words.
    pub attachment: &'static str,
    /// Seat to cut end, along the hose.
    pub set_back: Shown,
    /// Where the set-back comes from.
    pub set_back_source: String,
    /// Whether it is measured or published: else the builder has to measure his own.
    pub is_set_back_sure: bool,
    /// Hose gripped in the socket.
    pub socket: Shown,
    /// Where the socket length comes from.
    pub socket_source: String,
    /// The nut's thread.
    pub thread: String,
}

/// How two ends stand to each other, seen from A.
#[derive(Debug, Clone, PartialEq)]
pub struct Clock {
    /// The angle from A's elbow, counter-clockwise; none unless both ends are elbows.
    pub between_deg: Option<f64>,
    /// In short.
    pub short: String,
    /// What to do, in words.
    pub words: String,
    /// How far off it may be; empty without an angle.
    pub within: String,
    /// Who says so.
    pub source: String,
    /// The dial; none without an angle.
    pub dial: Option<Drawing>,
}

impl Clock {
    /// How far off it may be, and who says so; empty without an angle.
    pub fn tolerance(&self) -> String {
        if self.within.is_empty() {
            String::new()
        } else {
            format!("{}, {}", self.within, self.source)
        }
    }
}

/// A finding in words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FindingLine {
    /// How bad it is.
    pub severity: Severity,
    /// Id of the rule.
    pub rule: &'static str,
    /// Where; empty where it is about the whole.
    pub place: String,
    /// What is wrong.
    pub message: String,
    /// What to do about it.
    pub hint: String,
    /// Where the rule comes from.
    pub source: String,
    /// What else follows from the same cause.
    pub follows: Vec<String>,
}
