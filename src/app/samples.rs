//! The demo bays, built in, so that a first look needs no file. Invented.

use crate::document::file::{MeshSource, read};
use crate::model::{Bay, Mesh};

/// A demo bay.
pub(super) struct Sample {
    /// What it is.
    pub(super) name: &'static str,
    /// What there is to see.
    pub(super) about: &'static str,
    text: &'static str,
}

/// All of them.
pub(super) const SAMPLES: &[Sample] = &[
    Sample {
        name: "Light trials car",
        about: "fuel, clutch and gearbox oil in PTFE, two routings",
        text: include_str!("../../demo_projects/trials-car.bay.json"),
    },
    Sample {
        name: "Small diesel launch",
        about: "fuel and steering in rubber, two routings",
        text: include_str!("../../demo_projects/diesel-launch.bay.json"),
    },
    Sample {
        name: "Faults on purpose",
        about: "the trials car drawn in a hurry: what the rules find, to fix",
        text: include_str!("../../demo_projects/faults-on-purpose.bay.json"),
    },
];

/// Reads a demo bay.
pub(super) fn bay(index: usize) -> Result<Bay, Vec<String>> {
    let Some(sample) = SAMPLES.get(index) else {
        return Err(vec!["there is no such sample".to_owned()]);
    };
    read(sample.text.as_bytes(), &NoMeshes).map_err(|error| vec![error.to_string()])
}

/// Demo bays stand alone: no file lies beside them.
struct NoMeshes;

impl MeshSource for NoMeshes {
    fn mesh(&self, file: &str) -> Result<Mesh, String> {
        Err(format!("a sample has no files beside it, so there is no {file}"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_sample_is_a_bay_that_can_be_read() {
        for index in 0..SAMPLES.len() {
            let bay = bay(index).unwrap();
            assert!(!bay.title.is_empty());
        }
        assert!(bay(SAMPLES.len()).is_err());
    }
}
