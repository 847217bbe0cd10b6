//! One font for all text: it has `⌀ ″ → −` and the fractions, and text then looks the same on every
//! machine.

use std::sync::Arc;

use eframe::egui::{FontData, FontDefinitions, FontFamily};

/// Licence: `src/fonts/LICENSE`.
const DEJAVU_SANS: &[u8] = include_bytes!("../../fonts/DejaVuSans.ttf");

pub(super) fn definitions() -> FontDefinitions {
    const NAME: &str = "DejaVu Sans";
    let mut fonts = FontDefinitions::default();
    fonts.font_data.insert(NAME.to_owned(), Arc::new(FontData::from_static(DEJAVU_SANS)));
    let proportional = fonts.families.entry(FontFamily::Proportional).or_default();
    proportional.insert(0, NAME.to_owned());
    fonts
}
