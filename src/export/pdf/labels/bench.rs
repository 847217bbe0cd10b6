//! A tag for the cut piece, before its ends are on.

use super::words::Words;
use crate::export::pdf::block::Block;
use crate::export::pdf::text::Style;
use crate::report::captions;
use crate::report::sheet::{HoseSheet, Sheet};

pub(super) fn lines(words: &Words<'_>, sheet: &Sheet, hose: &HoseSheet) -> Vec<Block> {
    let mut lines = words.heading(hose);
    lines.push(words.length(&hose.cut));
    let tolerance = format!("{} {}", captions::TOLERANCE, hose.tolerance_words);
    lines.push(words.whole(&tolerance, Style::GROUP.sized(8.0)));
    if !hose.stop.is_empty() {
        lines.push(words.barred(&captions::STOP.to_uppercase()));
    }
    lines.push(Block::space(1.2));
    lines.push(
        words.fields([(captions::LABEL_LOT, &hose.finished.lot), (captions::LABEL_CUT_BY, "")]),
    );
    lines.push(words.owner(sheet));
    lines
}
