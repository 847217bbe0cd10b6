//! Reading and writing bay files: what is refused and how it is told, and that nothing is lost.

#[path = "common/bays.rs"]
mod bays;
#[path = "files/broken.rs"]
mod broken;
#[path = "files/hostile.rs"]
mod hostile;
#[path = "files/round_trip.rs"]
mod round_trip;
#[path = "files/saving.rs"]
mod saving;
#[path = "files/whole.rs"]
mod whole;
