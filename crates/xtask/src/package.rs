//! `cargo xtask package`: the Debian package, with all that is generated for it, and the checks that need it.
//!
//! In: the sources, `crates/xtask/package`, `[package.metadata.deb]`. Out: `target/package/*.deb`. The build is one that can be made
//! again: no path of this machine stands in it, and no time but that of the last commit.
//! Not here: texts of licences (`notices.rs`), what is accepted (`house/supply.rs`), installing it somewhere (`chroot.rs`).

use std::path::{Path, PathBuf};
use std::process::Command;

use crate::shell::{self, Done, cargo_command, root};
use crate::supply::{self, PROGRAM, Part};
use crate::{notices, sbom};

/// The tool that writes the package, by name and version.
const TOOL: (&str, &str) = ("cargo-deb", "3.8.0");
/// The package must not be larger.
/// Source: the project's own aim, 6 MB.
const LARGEST: u64 = 6_000_000;
/// How open the service may be to the rest of the machine, in the tenths of `systemd-analyze security`.
/// Source: the project's own aim, 1.0.
const EXPOSED: u32 = 10;

/// A kind of machine.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// What desks and servers have.
    Amd64,
    /// A small board with a 64-bit system.
    Arm64,
}

impl Kind {
    /// As Rust calls it.
    pub const fn target(self) -> &'static str {
        match self {
            Self::Amd64 => "x86_64-unknown-linux-gnu",
            Self::Arm64 => "aarch64-unknown-linux-gnu",
        }
    }
}

/// `package [--arm64 | check | repeat | try]`.
pub fn run(words: &[&str]) -> Done {
    match words {
        [] => components(&["lintian"]).and_then(|()| deb(Kind::Amd64)).map(drop),
        ["--arm64"] => {
            components(&["lintian", "gcc-aarch64-linux-gnu"])?;
            deb(Kind::Arm64).map(drop)
        }
        ["check"] => check(&shell::desk_program()?),
        ["repeat"] => repeat(),
        ["try"] => {
            components(&["lintian", "debootstrap"])?;
            let one = deb(Kind::Amd64)?;
            let two = write(Kind::Amd64, "2")?;
            crate::chroot::life(&one, &two)
        }
        other => Err(format!("`{}` is none of: --arm64, check, repeat, try", other.join(" "))),
    }
}

/// What this needs beside Rust, as Debian packages.
fn components(wanted: &[&str]) -> Done {
    let missing = |name: &&str| {
        !Command::new("dpkg").args(["--status", name]).output().is_ok_and(|o| o.status.success())
    };
    let missing: Vec<&str> = wanted.iter().copied().filter(missing).collect();
    if missing.is_empty() {
        return Ok(());
    }
    Err(format!("first: apt-get install {}", missing.join(" ")))
}

/// Builds the package, and checks it.
fn deb(kind: Kind) -> Result<PathBuf, String> {
    build(&root(), kind)?;
    let here = release(&root(), kind);
    // Pages and completions are the same on every machine: the desk's own program writes them for all.
    let writer = if kind == Kind::Amd64 { here } else { shell::desk_program()? };
    generate(&writer, kind)?;
    debs().iter().try_for_each(std::fs::remove_file).map_err(|e| e.to_string())?;
    let path = write(kind, "1")?;
    let bytes = std::fs::metadata(&path).map_err(|e| e.to_string())?.len();
    println!("{}: {bytes} bytes", path.display());
    if bytes > LARGEST {
        return Err(format!("the package has {bytes} bytes, and may have {LARGEST}"));
    }
    lint(&path)?;
    Ok(path)
}

/// Writes the package of what is built, as this revision.
fn write(kind: Kind, revision: &str) -> Result<PathBuf, String> {
    let tool = shell::tool(TOOL)?;
    let mut command = Command::new(&tool);
    command.current_dir(root()).args(["--no-build", "--no-strip", "--locked", "--profile", PROFILE]);
    command.args(["--target", kind.target(), "--deb-revision", revision, "--output"]).arg(folder());
    command.env("CARGO_TARGET_DIR", root().join("target"));
    shell::run(command.envs(repeatable(&root())?))?;
    let mark = format!("-{revision}_");
    let written = debs().into_iter().find(|path| path.to_string_lossy().contains(&mark));
    written.ok_or_else(|| format!("the tool wrote no package in {}", folder().display()))
}

/// The profile that ships.
const PROFILE: &str = "shipped";

/// Where the package and what is generated for it lie.
fn folder() -> PathBuf {
    root().join("target").join("package-files")
}

fn debs() -> Vec<PathBuf> {
    let entries = std::fs::read_dir(folder()).into_iter().flatten().flatten().map(|entry| entry.path());
    entries.filter(|path| path.extension().is_some_and(|e| e == "deb")).collect()
}

/// The program that was built below `root`.
fn release(root: &Path, kind: Kind) -> PathBuf {
    root.join("target").join(kind.target()).join(PROFILE).join(PROGRAM)
}

fn build(root: &Path, kind: Kind) -> Done {
    let mut command = cargo_command();
    command.current_dir(root).args(["build", "--locked", "--profile", PROFILE, "--bin", PROGRAM]);
    command.args(["--target", kind.target()]).env("CARGO_TARGET_DIR", root.join("target"));
    if kind == Kind::Arm64 {
        command.env("CARGO_TARGET_AARCH64_UNKNOWN_LINUX_GNU_LINKER", "aarch64-linux-gnu-gcc");
    }
    shell::run(command.envs(repeatable(root)?))
}

/// What makes a build the same wherever it is made: no path of this machine, the time of the last commit.
fn repeatable(root: &Path) -> Result<Vec<(&'static str, String)>, String> {
    let time = shell::said(
        Command::new("git").args(["log", "-1", "--format=%ct"]).current_dir(crate::shell::root()),
    )?;
    let home = std::env::var("CARGO_HOME")
        .or_else(|_| std::env::var("HOME").map(|home| format!("{home}/.cargo")))
        .map_err(|e| format!("HOME: {e}"))?;
    let sysroot = shell::said(Command::new("rustc").args(["--print", "sysroot"]))?;
    let from = [(root.display().to_string(), "/standpipe"), (home, "/cargo"), (sysroot, "/rust")];
    let rust: Vec<String> =
        from.iter().map(|(path, to)| format!("--remap-path-prefix={path}={to}")).collect();
    let c: Vec<String> = from.iter().map(|(path, to)| format!("-ffile-prefix-map={path}={to}")).collect();
    Ok(vec![
        ("SOURCE_DATE_EPOCH", time),
        ("CARGO_ENCODED_RUSTFLAGS", rust.join("\x1f")),
        ("CFLAGS", c.join(" ")),
        ("CARGO_INCREMENTAL", "0".to_owned()),
    ])
}

/// Pages, completions, notices, parts list and changelog, below [`folder`].
fn generate(program: &Path, kind: Kind) -> Done {
    let out = folder();
    let failed = |e: std::io::Error| format!("{}: {e}", out.display());
    for inside in ["man", "completions"] {
        let inside = out.join(inside);
        let _ = std::fs::remove_dir_all(&inside);
        std::fs::create_dir_all(&inside).map_err(failed)?;
    }
    shell::run(Command::new(program).arg("man").arg(out.join("man")))?;
    for shell in ["bash", "zsh", "fish"] {
        let text = shell::said(Command::new(program).args(["completions", shell]))?;
        std::fs::write(out.join("completions").join(shell), text + "\n").map_err(failed)?;
    }
    let parts = supply::linked(kind.target())?;
    let (notices, bill) = papers(&parts)?;
    packed("NOTICES", &notices)?;
    packed("changelog", &own("CHANGELOG.md")?)?;
    std::fs::write(out.join("standpipe.cdx.json"), bill).map_err(failed)?;
    std::fs::write(out.join("changelog"), changelog()?).map_err(failed)
}

/// A text below [`folder`], packed as Debian wants long ones, and without a time in it.
fn packed(name: &str, text: &str) -> Done {
    let path = folder().join(name);
    std::fs::write(&path, text).map_err(|e| format!("{}: {e}", path.display()))?;
    shell::run(Command::new("gzip").args(["--best", "--no-name", "--force"]).arg(&path))
}

/// The notices and the list of the parts: each has a text of its licence and a checksum, or it is said which has none.
pub fn papers(parts: &[Part]) -> Result<(String, String), String> {
    let ours = [("Apache-2.0", own("LICENSE-APACHE")?), ("MIT", own("LICENSE-MIT")?)];
    Ok((notices::text(parts, &ours)?, sbom::text(env!("CARGO_PKG_VERSION"), parts, &own("Cargo.lock")?)?))
}

/// A file of ours.
fn own(file: &str) -> Result<String, String> {
    std::fs::read_to_string(root().join(file)).map_err(|e| format!("{file}: {e}"))
}

/// The package's own changes, as Debian writes them: one entry, which names the program's.
fn changelog() -> Result<String, String> {
    let date = shell::said(Command::new("git").args(["log", "-1", "--format=%cD"]).current_dir(root()))?;
    let version = env!("CARGO_PKG_VERSION");
    Ok(format!(
        "{PROGRAM} ({version}-1) unstable; urgency=medium\n\n  * What changed in the program: /usr/share/doc/{PROGRAM}/changelog.gz.\n\n \
         -- {MAINTAINER}  {date}\n"
    ))
}

/// Who answers for the package; the same stands in Cargo.toml.
const MAINTAINER: &str = "the standpipe authors <standpipe@localhost>";

/// What Debian's own checker says; it must find nothing that it calls an error or a warning.
fn lint(deb: &Path) -> Done {
    let mut lintian = Command::new("lintian");
    lintian.args(["--fail-on", "error,warning", "--allow-root"]);
    shell::run(lintian.args(["--suppress-tags", UNPUBLISHED]).arg(deb))
}

/// What speaks of a package that goes into the distribution itself, which this one does not.
const UNPUBLISHED: &str = "initial-upload-closes-no-bugs,bogus-mail-host,bogus-mail-host-in-debian-changelog";

/// The cheap part, for every change: pages, completions, the unit, where the tools for that are.
pub fn check(program: &Path) -> Done {
    let out = shell::scratch("package")?;
    shell::run(Command::new(program).arg("man").arg(&out))?;
    let pages = std::fs::read_dir(&out).map_err(|e| e.to_string())?.count();
    for shell in ["bash", "zsh", "fish"] {
        let text = shell::said(Command::new(program).args(["completions", shell]))?;
        if !text.contains("serve") {
            return Err(format!("the completions for {shell} know no `serve`"));
        }
    }
    println!("{pages} manual pages, completions for three shells");
    unit(program)
}

/// The unit as systemd reads it, and how open it is.
fn unit(program: &Path) -> Done {
    let there = Command::new("systemd-analyze").arg("--version").output();
    if !there.is_ok_and(|output| output.status.success()) {
        println!("left out: the unit's own check; `apt-get install systemd` brings it");
        return Ok(());
    }
    let file = root().join("crates/xtask/package/standpipe@.service");
    let text = std::fs::read_to_string(&file).map_err(|e| e.to_string())?;
    let scratch = shell::scratch("unit")?;
    // It runs what is not installed here, and names pages that are not.
    let text: String = text
        .replace("/usr/bin/standpipe", &program.display().to_string())
        .lines()
        .filter(|line| !line.starts_with("Documentation="))
        .map(|line| format!("{line}\n"))
        .collect();
    let at = scratch.join("standpipe@.service");
    std::fs::write(&at, text).map_err(|e| e.to_string())?;
    let output = Command::new("systemd-analyze").args(["verify", "--man=no"]).arg(&at).output();
    let output = output.map_err(|e| e.to_string())?;
    let said = String::from_utf8_lossy(&output.stderr);
    if !output.status.success() || said.contains("standpipe@") {
        return Err(format!("systemd-analyze verify: {said}"));
    }
    let mut command = Command::new("systemd-analyze");
    let said = shell::said(command.args(["security", "--offline=true", "--no-pager"]).arg(&at))?;
    let tenths = exposure(&said).ok_or("systemd-analyze security names no exposure")?;
    println!("the unit's exposure: {}.{}", tenths / 10, tenths % 10);
    if tenths > EXPOSED {
        return Err(format!("{said}\nthe unit is too open: {tenths} tenths, at most {EXPOSED}"));
    }
    Ok(())
}

/// The level that the last line names, in tenths: `Overall exposure level for X: 0.4 SAFE`.
fn exposure(said: &str) -> Option<u32> {
    let (_, level) = said.lines().rev().find(|line| line.contains("exposure level"))?.rsplit_once(": ")?;
    let (whole, tenths) = level.split_whitespace().next()?.split_once('.')?;
    Some(whole.parse::<u32>().ok()? * 10 + tenths.parse::<u32>().ok()?)
}

/// The same commit, built in two folders: the same program?
fn repeat() -> Done {
    let mut sums = Vec::new();
    for name in ["repeat-here", "repeat-in-another-place"] {
        let folder = shell::scratch(name)?;
        let archive = folder.join("source.tar");
        let mut git = Command::new("git");
        shell::run(
            git.args(["archive", "--format=tar", "--output"]).arg(&archive).arg("HEAD").current_dir(root()),
        )?;
        shell::run(Command::new("tar").arg("-xf").arg(&archive).arg("-C").arg(&folder))?;
        build(&folder, Kind::Amd64)?;
        let sum = shell::said(Command::new("sha256sum").arg(release(&folder, Kind::Amd64)))?;
        sums.push(sum.split_whitespace().next().unwrap_or_default().to_owned());
        let _ = std::fs::remove_dir_all(&folder);
    }
    match &sums[..] {
        [one, two] if one == two => {
            println!("built twice, the same: {one}");
            Ok(())
        }
        other => Err(format!("the same commit became two programs: {}", other.join(" and "))),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_exposure_is_read_from_the_last_line() {
        let said = "✗ RootDirectory=  0.1\n\n→ Overall exposure level for standpipe@i.service: 1.2 OK 🙂\n";
        assert_eq!(exposure(said), Some(12));
        assert_eq!(exposure("→ Overall exposure level for x: 0.4 SAFE"), Some(4));
        assert_eq!(exposure("nothing"), None);
    }

    #[test]
    fn whoever_answers_for_the_package_is_the_same_in_its_changelog() {
        let manifest = std::fs::read_to_string(root().join("Cargo.toml")).unwrap();
        assert!(manifest.contains(&format!("maintainer = \"{MAINTAINER}\"")));
    }
}
