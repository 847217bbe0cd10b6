//! The paths in a bay file, told from the folder that the file is in.

use std::path::{Component, Path, PathBuf};

use crate::model::{BackgroundEntry, Bay, Shape};

/// The folder of a bay file.
pub fn folder_of(bay_file: &Path) -> &Path {
    bay_file.parent().unwrap_or(Path::new(""))
}

/// Where a file lies that a bay names. `folder`: that of the bay file, where it has one.
pub fn resolve(folder: Option<&Path>, file: &str) -> PathBuf {
    // An absolute path takes the place of the folder.
    folder.unwrap_or(Path::new("")).join(file)
}

/// How a file is named in a bay: relative to the bay's folder where there is a way (there is none
/// from drive to drive), else absolute. Parts are divided by `/` on every system.
pub fn name_from(folder: Option<&Path>, path: &Path) -> String {
    let whole = std::path::absolute(path).unwrap_or_else(|_| path.to_owned());
    let way = folder.and_then(|folder| {
        let folder = std::path::absolute(folder).ok()?;
        way_from(&tidy(&folder), &tidy(&whole))
    });
    match way {
        Some(parts) => parts.join("/"),
        None => whole.to_string_lossy().into_owned(),
    }
}

/// Without `.` and `..`, by name alone: links are not looked through, so that what the user sees
/// is what is stored.
fn tidy(path: &Path) -> Vec<Component<'_>> {
    let mut parts: Vec<Component<'_>> = Vec::new();
    for part in path.components() {
        match (part, parts.last()) {
            (Component::CurDir, _) | (Component::ParentDir, Some(Component::RootDir)) => {}
            (Component::ParentDir, Some(Component::Normal(_))) => {
                parts.pop();
            }
            _ => parts.push(part),
        }
    }
    parts
}

fn way_from(folder: &[Component<'_>], file: &[Component<'_>]) -> Option<Vec<String>> {
    let shared = folder.iter().zip(file).take_while(|(a, b)| a == b).count();
    let rest = file.get(shared..)?;
    let is_plain = |part: &Component<'_>| matches!(part, Component::Normal(_));
    // Nothing shared: another drive.
    if shared == 0 || !folder[shared..].iter().chain(rest).all(is_plain) {
        return None;
    }
    let up = folder[shared..].iter().map(|_| "..".to_owned());
    let down = rest.iter().map(|part| part.as_os_str().to_string_lossy().into_owned());
    Some(up.chain(down).collect())
}

/// Names every file of a bay again for a bay file in another folder.
pub fn rebase(bay: &mut Bay, from: Option<&Path>, to: Option<&Path>) {
    let renamed = |file: &mut String| {
        if !file.is_empty() {
            *file = name_from(to, &resolve(from, file));
        }
    };
    for obstacle in &mut bay.obstacles {
        if let Shape::Mesh { file, .. } = &mut obstacle.shape {
            renamed(file);
        }
    }
    for entry in &mut bay.backgrounds {
        if let BackgroundEntry::Known(background) = entry {
            renamed(&mut background.file);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    #[cfg(unix)]
    fn names_go_up_and_down_from_the_bay() {
        let name = |file: &str| name_from(Some(Path::new("/cars/trials")), Path::new(file));
        assert_eq!(name("/cars/trials/bay.jpg"), "bay.jpg");
        assert_eq!(name("/cars/trials/photos/bay.jpg"), "photos/bay.jpg");
        assert_eq!(name("/cars/photos/bay.jpg"), "../photos/bay.jpg");
        assert_eq!(name("/elsewhere/bay.jpg"), "../../elsewhere/bay.jpg");
        assert_eq!(name("/cars/./trials/x/../bay.jpg"), "bay.jpg");
        assert_eq!(name_from(None, Path::new("/cars/bay.jpg")), "/cars/bay.jpg");
    }

    #[test]
    #[cfg(unix)]
    fn a_name_leads_back_to_its_file() {
        let folder = Path::new("/cars/trials");
        for file in ["/cars/trials/a.jpg", "/cars/b.jpg", "/c.jpg"] {
            let name = name_from(Some(folder), Path::new(file));
            let back = resolve(Some(folder), &name);
            assert_eq!(tidy(&back), tidy(Path::new(file)));
        }
        assert_eq!(resolve(Some(folder), "/x/y.jpg"), Path::new("/x/y.jpg"));
    }
}
