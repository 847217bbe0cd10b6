//! The program itself, as it is called: streams, exit statuses, what is printed and written.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may stop where it stands")]

#[path = "cli/bench.rs"]
mod bench;
#[path = "cli/call.rs"]
mod call;
#[path = "cli/check.rs"]
mod check;
#[path = "cli/compare.rs"]
mod compare;
#[path = "cli/csv.rs"]
mod csv;
#[path = "cli/cutlist.rs"]
mod cutlist;
#[path = "cli/draw.rs"]
mod draw;
#[path = "cli/force.rs"]
mod force;
#[path = "cli/help.rs"]
mod help;
#[path = "cli/hostile.rs"]
mod hostile;
#[path = "cli/printed.rs"]
mod printed;
#[path = "cli/refused.rs"]
mod refused;
#[path = "cli/sheet.rs"]
mod sheet;
#[path = "cli/units.rs"]
mod units;
