//! The module rules: what may use what. Files in, complaints out.
//!
//! Knows nothing of the disk. Start at [`order`].

use crate::tokens::{Path, Token, paths_from, reads, text_at, tokens, use_paths, without_tests};

/// A tracked text file: its path from the project's top, with `/`, and its text.
#[derive(Debug, Clone)]
pub(crate) struct File {
    pub(crate) path: String,
    pub(crate) text: String,
}

impl File {
    /// The module a source file is: `src/weather/year.rs` is `weather`, `year`; `lib.rs` is empty.
    /// `None` for `main.rs` and whatever is no source file.
    pub(crate) fn module(&self) -> Option<Vec<String>> {
        let inside = self.path.strip_prefix("src/")?.strip_suffix(".rs")?;
        if inside == "main" {
            return None;
        }
        let mut parts: Vec<String> = inside.split('/').map(str::to_owned).collect();
        if matches!(parts.last().map(String::as_str), Some("mod" | "lib")) {
            parts.pop();
        }
        Some(parts)
    }

    /// True for source files.
    pub(crate) fn is_source(&self) -> bool {
        self.path.starts_with("src/") && self.path.ends_with(".rs")
    }

    /// A complaint about a line of this file.
    pub(crate) fn says(&self, line: usize, what: &str) -> String {
        format!("{}:{line}: {what}", self.path)
    }
}

/// A folder's modules in the order of their `mod` lines.
pub(crate) fn declared(code: &[Token]) -> Vec<String> {
    (0..code.len())
        .filter(|&i| text_at(code, i) == "mod" && text_at(code, i + 2) == ";")
        .map(|i| text_at(code, i + 1).to_owned())
        .collect()
}

struct Folder {
    module: Vec<String>,
    children: Vec<String>,
    /// Name brought in from a child, and that child.
    from_child: Vec<(String, String)>,
}

fn folders(files: &[File]) -> Vec<Folder> {
    let mut all = Vec::new();
    for file in files {
        let Some(module) = file.module() else { continue };
        let code = tokens(&file.text);
        let children = declared(&code);
        let from_child = use_paths(&without_tests(&code))
            .into_iter()
            .filter_map(|path| {
                let first = path.segments.first()?;
                children.contains(first).then(|| (path.name.clone(), first.clone()))
            })
            .collect();
        all.push(Folder { module, children, from_child });
    }
    all
}

/// Every path of a file that names a module of this crate, from the crate's root.
fn absolute_paths(module: &[String], file: &File) -> Vec<Path> {
    let code = tokens(&file.text);
    let mut all = paths_from(&code, "crate");
    let Some((_, parent)) = module.split_last() else { return all };
    if file.path.ends_with("/tests.rs") {
        return all;
    }
    for mut path in paths_from(&without_tests(&code), "super") {
        let mut whole = parent.to_vec();
        whole.append(&mut path.segments);
        path.segments = whole;
        all.push(path);
    }
    all
}

/// Each path points to a module above; inside a folder, above in the folder's own list.
pub(crate) fn order(files: &[File]) -> Vec<String> {
    let folders = folders(files);
    let mut complaints = Vec::new();
    for file in files {
        let Some(module) = file.module() else { continue };
        for path in absolute_paths(&module, file) {
            if let Some(why) = downward(&module, &path.segments, &folders) {
                let written = path.segments.join("::");
                complaints.push(file.says(path.line, &format!("crate::{written} {why}")));
            }
        }
        let code = tokens(&file.text);
        for (i, token) in code.iter().enumerate() {
            if reads(&code, i, &["super", "::", "super"]) {
                complaints.push(file.says(token.line, "super::super; write the path from crate"));
            }
        }
        for path in paths_from(&code, "winterledger") {
            complaints.push(file.says(path.line, "the crate names itself; write crate::"));
        }
    }
    complaints
}

/// Why `module` may not use `path`.
fn downward(module: &[String], path: &[String], folders: &[Folder]) -> Option<String> {
    let shared = module.iter().zip(path).take_while(|(a, b)| a == b).count();
    if shared == module.len() {
        return None;
    }
    let Some(named) = path.get(shared) else {
        return Some("names its own folder; name the sibling".to_owned());
    };
    if named == "*" {
        return Some("takes everything of its own folder; name the siblings".to_owned());
    }
    let folder = folders.iter().find(|folder| folder.module == module[..shared])?;
    let place = |name: &String| folder.children.iter().position(|child| child == name);
    let own = place(&module[shared]);
    let target = if place(named).is_some() {
        named
    } else if shared == 0 {
        return Some("is no module of the list; no re-exports of the root inside src".to_owned());
    } else {
        // An item of the folder's own file may be used by all; one from a sibling counts as it.
        let (_, child) = folder.from_child.iter().find(|(name, _)| name == named)?;
        if *child == module[shared] {
            return None;
        }
        child
    };
    (place(target) >= own).then(|| format!("points down or sideways: {target} stands below"))
}

/// Modules that may know how a job file is written.
const KNOW_THE_JOB: [&str; 6] = ["job", "comparison", "study", "batch", "web", "cli"];

/// Formulas know no job file.
pub(crate) fn job_use(files: &[File]) -> Vec<String> {
    let mut complaints = Vec::new();
    for file in files {
        let Some(module) = file.module() else { continue };
        let may = match module.first() {
            None => true,
            Some(first) => {
                KNOW_THE_JOB.contains(&first.as_str())
                    || file.path.ends_with("/from_job.rs")
                    || file.path.contains("/from_job/")
            }
        };
        if may {
            continue;
        }
        for path in absolute_paths(&module, file) {
            if path.segments.first().is_some_and(|first| first == "job") {
                complaints.push(file.says(path.line, "crate::job is for from_job.rs and the pipeline"));
            }
        }
    }
    complaints
}

/// Every source file is reached from `lib.rs`: none is left over.
pub(crate) fn orphans(files: &[File]) -> Vec<String> {
    let folders = folders(files);
    let mut complaints = Vec::new();
    for file in files {
        let Some(module) = file.module() else { continue };
        let Some((name, parent)) = module.split_last() else { continue };
        let listed = folders.iter().any(|f| f.module == parent && f.children.contains(name));
        if !listed {
            complaints.push(file.says(1, "no mod line names this file"));
        }
    }
    complaints
}
