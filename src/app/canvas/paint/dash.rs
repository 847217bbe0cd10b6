//! Broken lines.

use eframe::egui::{Pos2, Shape, Stroke};
use glam::DVec2;

use super::at;

/// A broken line.
pub(super) fn shapes(
    line: &[DVec2],
    stroke: Stroke,
    on: f64,
    off: f64,
) -> impl Iterator<Item = Shape> + use<> {
    along(line, on, off).into_iter().map(move |dash| Shape::line(dash, stroke))
}

/// The dashes along a line, each as one path, also round a corner: in pieces they would be many.
fn along(line: &[DVec2], on: f64, off: f64) -> Vec<Vec<Pos2>> {
    let mut dashes = Vec::new();
    let mut dash: Vec<Pos2> = line.first().map(|p| at(*p)).into_iter().collect();
    // What is left of the dash or gap under way.
    let (mut inked, mut left) = (true, on);
    for ends in line.windows(2) {
        let length = ends[0].distance(ends[1]);
        let mut done = 0.0;
        while length - done > left {
            done += left;
            let place = at(ends[0].lerp(ends[1], done / length));
            if inked {
                dash.push(place);
                dashes.push(std::mem::take(&mut dash));
            } else {
                dash.push(place);
            }
            inked = !inked;
            left = if inked { on } else { off };
        }
        left -= length - done;
        if inked {
            dash.push(at(ends[1]));
        }
    }
    if dash.len() > 1 {
        dashes.push(dash);
    }
    dashes
}

#[cfg(test)]
mod tests {
    use glam::dvec2;

    use super::*;

    fn length(dash: &[Pos2]) -> f32 {
        dash.windows(2).map(|w| w[0].distance(w[1])).sum()
    }

    #[test]
    fn dashes_and_gaps_are_as_long_as_they_should_be_also_round_corners() {
        let line = [dvec2(0.0, 0.0), dvec2(25.0, 0.0), dvec2(25.0, 26.0)];
        let dashes = along(&line, 10.0, 7.0);
        let lengths: Vec<f32> = dashes.iter().map(|dash| length(dash)).collect();
        assert_eq!(dashes.len(), 3, "0–10, 17–27, 34–44, and a gap to the end at 51");
        assert!(lengths.iter().all(|length| (length - 10.0).abs() < 1e-4), "{lengths:?}");
        assert_eq!(dashes[1].len(), 3, "one path round the corner");
    }

    #[test]
    fn the_last_dash_ends_with_the_line_and_nothing_comes_of_nothing() {
        assert_eq!(along(&[dvec2(0.0, 0.0), dvec2(4.0, 0.0)], 10.0, 7.0).len(), 1);
        assert!(along(&[dvec2(0.0, 0.0)], 10.0, 7.0).is_empty());
        assert!(along(&[], 10.0, 7.0).is_empty());
    }
}
