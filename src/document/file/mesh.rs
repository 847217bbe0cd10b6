//! Meshes beside the bay: STL, binary or text, in millimetres.

use std::fs::File;
use std::io::{Cursor, ErrorKind, Read};
use std::path::{Path, PathBuf};

use glam::DVec3;

use crate::model::Mesh;
use crate::units::quotable;

/// Where the meshes that a bay names come from.
pub trait MeshSource {
    /// The mesh of this file, a path relative to the bay file.
    ///
    /// # Errors
    /// Why it cannot be read, in a builder's words.
    fn mesh(&self, file: &str) -> Result<Mesh, String>;
}

/// Meshes on the disk, relative to a folder.
#[derive(Debug, Clone)]
pub struct FolderMeshes {
    folder: PathBuf,
}

/// Triangles of all meshes of a bay together, each counted as often as it is placed: two million
/// take about half a gigabyte, and a few seconds to make ready.
pub const MOST_TRIANGLES: usize = 2_000_000;

/// Mesh files above this are refused, bytes: two million triangles in binary have 100 MB.
const MAX_BYTES: u64 = 128 << 20;

/// Coordinates above this are refused, as those of the bay are.
const MAX_SIZE: f32 = 1e9;

impl FolderMeshes {
    /// Meshes relative to the folder that this bay file is in.
    pub fn beside(bay_file: &Path) -> Self {
        Self { folder: bay_file.parent().unwrap_or(Path::new("")).to_owned() }
    }
}

impl MeshSource for FolderMeshes {
    fn mesh(&self, file: &str) -> Result<Mesh, String> {
        if Path::new(file).has_root() || Path::new(file).is_absolute() {
            return Err("name it relative to the bay file, so that both can move".to_owned());
        }
        load_mesh(&self.folder.join(file))
    }
}

/// Reads an STL file.
///
/// # Errors
/// Why it cannot be read, in a builder's words.
pub fn load_mesh(path: &Path) -> Result<Mesh, String> {
    let why = |error| why_not_read(&error);
    let mut bytes = Vec::new();
    let opened = File::open(path).map_err(why)?;
    opened.take(MAX_BYTES + 1).read_to_end(&mut bytes).map_err(why)?;
    if bytes.len() as u64 > MAX_BYTES {
        return Err(format!(
            "it is larger than {} MiB; a binary STL is smaller than one in text",
            MAX_BYTES >> 20
        ));
    }
    mesh_from_stl(&bytes)
}

/// What the system says of a file that cannot be read, in a builder's words.
pub(super) fn why_not_read(error: &std::io::Error) -> String {
    match error.kind() {
        ErrorKind::NotFound => "there is no such file".to_owned(),
        ErrorKind::PermissionDenied => "you may not read this file".to_owned(),
        ErrorKind::IsADirectory => "it is a folder".to_owned(),
        _ => quotable(&error.to_string()),
    }
}

/// Bytes before the triangles of a binary STL: 80 of header, then the count.
const HEADER: usize = 84;
/// Bytes of one triangle.
const TRIANGLE: u64 = 50;

/// The mesh in the bytes of an STL file, binary or text.
///
/// Which of the two it is, is told by the length (a binary file says how many triangles follow),
/// not by the first word: binary files that begin with "solid" are common.
///
/// # Errors
/// What is wrong with it: neither kind, cut short, a number that is not finite, no triangle.
pub fn mesh_from_stl(bytes: &[u8]) -> Result<Mesh, String> {
    let count = bytes.get(80..HEADER).and_then(|count| <[u8; 4]>::try_from(count).ok());
    let length_told =
        count.map(|count| HEADER as u64 + u64::from(u32::from_le_bytes(count)) * TRIANGLE);
    if length_told == Some(bytes.len() as u64) {
        let triangles = (bytes.len() - HEADER) / TRIANGLE as usize;
        if triangles > MOST_TRIANGLES {
            return Err(format!(
                "it has {triangles} triangles, and a bay no more than {MOST_TRIANGLES}: thin it out"
            ));
        }
        return mesh_from_triangles(&in_binary(bytes));
    }
    if bytes.trim_ascii_start().starts_with(b"solid") {
        // The name of a part may be in any encoding; nothing else in the file is more than ASCII.
        let text = String::from_utf8_lossy(bytes);
        return mesh_from_triangles(as_one_part(&text)?.as_bytes());
    }
    match length_told {
        Some(told) => Err(format!(
            "not an STL file, or one cut short: its count of triangles asks for {told} bytes, it has {}",
            bytes.len()
        )),
        None => Err("not an STL file: it is too short".to_owned()),
    }
}

/// A binary file with a header that does not look like text.
fn in_binary(bytes: &[u8]) -> Vec<u8> {
    let mut bytes = bytes.to_vec();
    bytes.iter_mut().take(80).for_each(|byte| *byte = 0);
    bytes
}

/// Text with all its parts ("solid … endsolid") made one: the STL reader stops after the first.
fn as_one_part(text: &str) -> Result<String, String> {
    let words = |line: &str| line.split_ascii_whitespace().next().map(str::to_owned);
    let last = text.lines().rev().find_map(words);
    if last.as_deref() != Some("endsolid") {
        return Err("text STL cut short: it does not end with \"endsolid\"".to_owned());
    }
    let is_inside = |line: &&str| !matches!(words(line).as_deref(), Some("solid" | "endsolid"));
    let inside: Vec<&str> = text.lines().filter(is_inside).collect();
    Ok(format!("solid one\n{}\nendsolid one\n", inside.join("\n")))
}

fn mesh_from_triangles(bytes: &[u8]) -> Result<Mesh, String> {
    let read = stl_io::read_stl(&mut Cursor::new(bytes)).map_err(|error| match error.kind() {
        ErrorKind::UnexpectedEof => "the STL file is cut short".to_owned(),
        _ => format!("not an STL file: {}", quotable(&error.to_string())),
    })?;
    if read.faces.is_empty() {
        return Err("it has no triangle".to_owned());
    }
    let is_sound = |value: &f32| value.is_finite() && value.abs() <= MAX_SIZE;
    if !read.vertices.iter().flat_map(|vertex| &vertex.0).all(is_sound) {
        return Err("it has a coordinate that is not finite, or larger than 1e9".to_owned());
    }
    let place = |index: usize| u32::try_from(index).map_err(|_| "too many points".to_owned());
    let triangle = |face: &stl_io::IndexedTriangle| {
        let [a, b, c] = face.vertices;
        Ok([place(a)?, place(b)?, place(c)?])
    };
    let vertices = read.vertices.iter().map(|v| DVec3::from(v.0.map(f64::from))).collect();
    Ok(Mesh::new(vertices, read.faces.iter().map(triangle).collect::<Result<_, String>>()?))
}

#[cfg(test)]
mod tests {
    use super::*;

    const TEXT: &str = "solid a\n facet normal 0 0 1\n outer loop\n vertex 0 0 0\n vertex 1 0 0\n vertex 0 2 0\n endloop\n endfacet\nendsolid a\n";

    fn binary(header: &[u8], triangles: &[[[f32; 3]; 3]]) -> Vec<u8> {
        let mut bytes = header.to_vec();
        bytes.resize(80, b' ');
        bytes.extend(u32::try_from(triangles.len()).unwrap().to_le_bytes());
        for triangle in triangles {
            bytes.extend([0; 12]);
            bytes.extend(triangle.as_flattened().iter().flat_map(|v| v.to_le_bytes()));
            bytes.extend([0; 2]);
        }
        bytes
    }

    const ONE: [[f32; 3]; 3] = [[0.0, 0.0, 0.0], [1.0, 0.0, 0.0], [0.0, 2.0, 0.0]];

    #[test]
    fn text_and_binary_agree() {
        let text = mesh_from_stl(TEXT.as_bytes()).unwrap();
        assert_eq!(text, mesh_from_stl(&binary(b"a part", &[ONE])).unwrap());
        assert_eq!(text.triangles(), [[0, 1, 2]]);
        assert_eq!(text.bounds(), (DVec3::ZERO, DVec3::new(1.0, 2.0, 0.0)));
    }

    #[test]
    fn a_binary_file_may_call_itself_solid() {
        let mesh = mesh_from_stl(&binary(b"solid part\n", &[ONE])).unwrap();
        assert_eq!(mesh.triangles().len(), 1);
    }

    #[test]
    fn every_part_of_a_text_file_is_read() {
        let second = TEXT.replace("0 2 0", "0 9 0");
        let mesh = mesh_from_stl(format!("{TEXT}{second}").as_bytes()).unwrap();
        assert_eq!(mesh.triangles().len(), 2);
        assert_eq!(mesh.bounds().1, DVec3::new(1.0, 9.0, 0.0));
    }

    #[test]
    fn what_is_no_mesh_is_told() {
        let told = |bytes: &[u8]| mesh_from_stl(bytes).unwrap_err();
        assert_eq!(told(b""), "not an STL file: it is too short");
        assert_eq!(told(b"solid a\nendsolid a\n"), "it has no triangle");
        assert_eq!(told(&binary(b"", &[])), "it has no triangle");
        assert!(told(&TEXT.as_bytes()[..60]).contains("cut short"));
        assert!(told(&binary(b"", &[ONE])[..100]).contains("cut short"));
        let mut nan = ONE;
        nan[1][2] = f32::NAN;
        assert!(told(&binary(b"", &[nan])).contains("not finite"));
        let mut lying = binary(b"", &[ONE]);
        lying[80..84].copy_from_slice(&u32::MAX.to_le_bytes());
        assert!(told(&lying).contains("cut short"), "{}", told(&lying));
    }
}
