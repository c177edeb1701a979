//! The pages of `docs/guide` and the README: every file shown there is written, every command run, every line quoted comes out.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{copied, shell_words};
use std::path::Path;
use std::process::Command;

/// The blocks of one kind, each with the text before it.
fn blocks<'a>(text: &'a str, kind: &str) -> Vec<(&'a str, &'a str)> {
    let fence = format!("```{kind}\n");
    text.match_indices(&fence)
        .map(|(at, _)| {
            let body = &text[at + fence.len()..];
            (&text[..at], &body[..body.find("```").expect("an end")])
        })
        .collect()
}

#[test]
fn every_page_of_the_guide_holds() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut pages: Vec<_> =
        std::fs::read_dir(root.join("docs/guide")).expect("guide").map(|page| page.unwrap().path()).collect();
    pages.sort();
    assert!(pages.len() >= 5, "{pages:?}");
    pages.push(root.join("README.md"));
    let (mut wrong, mut commands) = (Vec::new(), 0);
    for page in &pages {
        let text = std::fs::read_to_string(page).expect("page");
        let folder = tempfile::tempdir().unwrap();
        std::fs::create_dir(folder.path().join("examples")).unwrap();
        std::fs::copy(root.join("examples/shop.yaml"), folder.path().join("examples/shop.yaml")).unwrap();
        copied(&root.join("demo"), &folder.path().join("demo"));
        for (before, yaml) in blocks(&text, "yaml") {
            let name = before.rsplit('`').nth(1).expect("a name in backticks before each file");
            std::fs::write(folder.path().join(name), yaml).unwrap();
        }
        for (_, console) in blocks(&text, "console") {
            let mut lines = console.lines();
            let command = lines.next().and_then(|line| line.strip_prefix("$ setover ")).expect("a command");
            let output = Command::new(env!("CARGO_BIN_EXE_setover"))
                .current_dir(folder.path())
                .args(shell_words(command))
                .output()
                .unwrap();
            let code = output.status.code();
            assert!(
                matches!(code, Some(0 | 1)),
                "{}: {command}: {}",
                page.display(),
                String::from_utf8_lossy(&output.stderr)
            );
            let said = String::from_utf8_lossy(&output.stdout).into_owned();
            commands += 1;
            wrong.extend(
                lines
                    .filter(|line| !said.lines().any(|own| own == *line))
                    .map(|line| format!("{}: {line}", page.display())),
            );
        }
    }
    assert!(commands >= 8, "{commands}");
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}
