//! The program.
fn main() {
    if let Err(e) = hosewright::app::run(std::env::args().nth(1).map(Into::into)) { eprintln!("{e}"); }
}
