//! What stays on the finished hose.

use super::words::Words;
use crate::export::pdf::block::Block;
use crate::export::pdf::text::Style;
use crate::report::captions;
use crate::report::sheet::{HoseSheet, Sheet};

pub(super) fn lines(words: &Words<'_>, sheet: &Sheet, hose: &HoseSheet) -> Vec<Block> {
    let finished = &hose.finished;
    let mut lines = words.heading(hose);
    lines.push(words.whole(finished.overall_of(), Style::LABEL.sized(6.6)));
    lines.push(words.length(&finished.overall));
    for line in [
        format!("rated to {}", finished.rating),
        format!("{} {}", finished.proof_of, finished.proof),
        hose.pressure.clone(),
    ] {
        lines.push(words.whole(&line, Style::GROUP.sized(8.0)));
    }
    lines.push(words.line(&hose.carries, Style::GROUP.sized(8.0)));
    if hose.stop.is_empty() {
        lines.push(words.whole(&hose.test_state, Style::STRONG.sized(7.4)));
    } else {
        let stopped = format!("{}; {}", captions::STOP_USE.to_uppercase(), hose.test_state);
        lines.push(words.barred(&stopped));
    }
    lines.push(Block::space(1.2));
    lines.push(words.fields([
        (captions::LABEL_LOT, &finished.lot),
        (captions::LABEL_MADE_ON, &finished.made_on),
    ]));
    let replace_by = (captions::LABEL_REPLACE_BY, finished.replace_by.as_str());
    lines.push(if hose.is_to_be_tested {
        words.fields([replace_by, (captions::LABEL_TESTED, "")])
    } else {
        words.only(replace_by)
    });
    lines.push(words.owner(sheet));
    lines
}
