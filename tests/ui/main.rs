//! The window, driven as a user would: by names, pointer and keys. No display is needed.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "a test that cannot go on says so by panicking"
)]

mod background;
mod comfort;
mod compare;
mod editing;
mod files;
mod installed;
mod layout_rules;
mod locks;
mod looking;
mod making;
mod parts;
mod pictures;
mod properties;
mod safety;
mod shopping;
mod snapping;
mod strip;
mod views;
mod world;
