//! Questions for an independent tool: runs one of `tests/python/*.py` and reads its JSON.
//!
//! Must never skip: without the interpreter the test fails. Start at [`run`].

use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn interpreter() -> PathBuf {
    let path = root().join("target/venv/bin/python");
    assert!(
        path.exists(),
        "target/venv/bin/python is missing: run tests/run once, it makes the Python environment \
         that some tests are held against"
    );
    path
}

/// Runs `tests/python/<script>` with `stdin` on its standard input; gives the JSON it prints.
pub(crate) fn run(script: &str, stdin: &str) -> serde_json::Value {
    let mut child = Command::new(interpreter())
        .arg(root().join("tests/python").join(script))
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the Python interpreter starts");
    child.stdin.take().unwrap().write_all(stdin.as_bytes()).unwrap();
    let output = child.wait_with_output().unwrap();
    let errors = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "{script} failed:\n{errors}");
    serde_json::from_slice(&output.stdout)
        .unwrap_or_else(|e| panic!("{script} printed no JSON: {e}\n{errors}"))
}
