//! Reading and writing bay files: what is refused and how it is told, and that nothing is lost.

#![allow(clippy::unwrap_used, reason = "what a test's own helpers cannot do fails the test")]

#[path = "common/bays.rs"]
mod bays;
#[path = "files/broken.rs"]
mod broken;
#[path = "files/hostile.rs"]
mod hostile;
#[path = "files/parts.rs"]
mod parts;
#[path = "files/recovery.rs"]
mod recovery;
#[path = "files/round_trip.rs"]
mod round_trip;
#[path = "files/saving.rs"]
mod saving;
#[path = "files/tables.rs"]
mod tables;
#[path = "files/whole.rs"]
mod whole;
