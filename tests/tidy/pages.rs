//! The pages for people against the code: modules, dependencies, and what lies at the top.
//!
//! Texts in, complaints out; knows nothing of the disk. Start at [`module_list`].

/// Everything that may lie at the project's top, besides dotfiles.
const TOP: [&str; 12] = [
    "Cargo.toml",
    "Cargo.lock",
    "README.md",
    "DEVELOPERS.md",
    "LICENSE",
    "NOTICE",
    "build.rs",
    "src",
    "data",
    "tests",
    "reports",
    "benches",
];

/// Names at the top that do not belong there.
pub(crate) fn top_level<'a>(paths: impl Iterator<Item = &'a str>) -> Vec<String> {
    let mut strangers: Vec<&str> = paths
        .filter_map(|path| path.split('/').next())
        .filter(|name| !TOP.contains(name) && !name.starts_with('.'))
        .collect();
    strangers.dedup();
    strangers.iter().map(|name| format!("{name} does not belong at the top")).collect()
}

/// The lines of a Markdown section with this heading, up to the next heading as high.
fn section<'a>(page: &'a str, heading: &str) -> Vec<&'a str> {
    page.lines()
        .skip_while(|line| line.trim_end() != heading)
        .skip(1)
        .take_while(|line| !line.starts_with("## ") && !line.starts_with("# "))
        .collect()
}

/// The page's list of modules, in its first fenced block, against the crate's own, order included.
///
/// A line of the list begins with the module's name (`weather/`, `units.rs`); indented lines go on
/// with the line above, and `lib.rs` and `main.rs` may be listed too.
pub(crate) fn module_list(page: &str, modules: &[String]) -> Vec<String> {
    let listed: Vec<String> = section(page, "## Modules")
        .into_iter()
        .skip_while(|line| !line.starts_with("```"))
        .skip(1)
        .take_while(|line| !line.starts_with("```"))
        .map(|line| line.chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect::<String>())
        .filter(|name| !name.is_empty() && name != "lib" && name != "main" && name != "src")
        .collect();
    if listed == modules {
        return Vec::new();
    }
    vec![format!("the list under \"## Modules\" is {listed:?}, the crate's is {modules:?}")]
}

/// Dependencies of the manifest, all kinds.
pub(crate) fn manifest_dependencies(manifest: &str) -> Vec<String> {
    let mut inside = false;
    let mut found = Vec::new();
    for line in manifest.lines().map(str::trim) {
        if let Some(table) = line.strip_prefix('[') {
            let table = table.trim_end_matches(']');
            inside = table.ends_with("dependencies");
            if let Some((_, name)) = table.split_once("dependencies.") {
                found.push(name.to_owned());
            }
        } else if inside
            && !line.starts_with('#')
            && let Some((name, _)) = line.split_once(['=', '.', ' '])
        {
            found.push(name.trim().trim_matches('"').to_owned());
        }
    }
    found
}

/// Dependencies that the page does not account for on a line of their own.
pub(crate) fn dependencies(page: &str, manifest: &str) -> Vec<String> {
    let lines = section(page, "## Dependencies");
    manifest_dependencies(manifest)
        .into_iter()
        .filter(|name| !lines.iter().any(|line| line.contains(&format!("`{name}`"))))
        .map(|name| format!("`{name}` has no line under \"## Dependencies\""))
        .collect()
}
