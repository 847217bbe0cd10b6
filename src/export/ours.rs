//! Whether a file is one that this program wrote: then it may be written anew without asking.

use super::compare::csv as compare_csv;
use super::template::bend_table_header;
use super::{csv, cutlist_csv};
use crate::units::LengthUnit;

/// What stands in every PDF of ours: who made it.
const IN_PDF: &str = "/Creator(Hosewright)";

/// What stands at the head of a page of ours.
pub(super) const IN_HTML: &str = "<meta name=\"generator\" content=\"Hosewright\">";

/// The comment at the head of a drawing of ours.
pub(super) const IN_DRAWING: &str = "Written by Hosewright";

/// The first keys of our documents for machines; a bay file's is not among them.
const IN_JSON: [&str; 4] = [
    "{\n  \"sheet\": \"hosewright-sheet\"",
    "{\n  \"report\": \"hosewright-check\"",
    "{\n  \"report\": \"hosewright-compare\"",
    "{\n  \"cutlist\": \"hosewright-cutlist\"",
];

/// Whether these are the bytes of a file that this program wrote, by the mark that each format
/// carries: PDF its creator, HTML its generator, DXF and SVG a comment, JSON its first key, CSV its
/// columns. A file without a byte is nobody's.
pub fn is_ours(bytes: &[u8]) -> bool {
    const HEAD: usize = 4096;
    let head = bytes.get(..HEAD).unwrap_or(bytes);
    let head = String::from_utf8_lossy(head);
    let is_svg = head.starts_with("<?xml") && head.contains("<svg ");
    let is_dxf = head.starts_with("999\n");
    bytes.is_empty()
        || (head.starts_with("%PDF-") && contains(bytes, IN_PDF.as_bytes()))
        || (head.starts_with("<!DOCTYPE html>") && head.contains(IN_HTML))
        || ((is_svg || is_dxf) && head.contains(IN_DRAWING))
        || IN_JSON.iter().any(|start| head.starts_with(start))
        || [LengthUnit::Mm, LengthUnit::Inch]
            .map(cutlist_csv::header)
            .into_iter()
            .chain([csv::header(), compare_csv::header(), bend_table_header()])
            .any(|header| head.starts_with(header.as_str()))
}

fn contains(bytes: &[u8], part: &[u8]) -> bool {
    bytes.windows(part.len()).any(|window| window == part)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_others_wrote_is_not_ours() {
        for other in [
            "{\n  \"format\": \"hosewright-bay\",\n",
            "0\nSECTION\n2\nHEADER\n",
            "999\nanother program\n0\nSECTION\n",
            "%PDF-1.7 /Creator(another)",
            "<!DOCTYPE html><title>Hosewright</title>",
            "routing,hose_id\r\n",
            "\u{0}\u{1}",
        ] {
            assert!(!is_ours(other.as_bytes()), "{other}");
        }
        assert!(is_ours(b""), "an empty file");
        assert!(is_ours(format!("{}1,2,3\r\n", csv::header()).as_bytes()));
    }
}
