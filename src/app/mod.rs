//! The window. The only layer that names the window crates.
