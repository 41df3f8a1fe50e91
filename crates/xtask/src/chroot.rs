//! The life of the package on a system of its own (`crates/xtask/package/life.sh`): a small Debian in a folder, in namespaces that end
//! with the test.
//!
//! In: two packages, the second a later revision. Out: whether each step came out as it must. Needs root and debootstrap. Not here: a
//! service manager. systemd as the first process needs a machine of its own.

use std::path::{Path, PathBuf};
use std::process::Command;

use crate::shell::{self, Done, root};

/// The release that the small system is.
/// Own choice: the oldest that is still kept; what is installed there can be installed on newer ones.
const RELEASE: &str = "bookworm";

/// Installs, starts, upgrades, removes and purges.
pub fn life(one: &Path, two: &Path) -> Done {
    let system = shell::scratch("life")?;
    shell::run(Command::new("cp").arg("-a").arg(base()?.join(".")).arg(&system))?;
    for (from, to) in [(one, "one.deb"), (two, "two.deb")] {
        std::fs::copy(from, system.join(to)).map_err(|e| format!("{}: {e}", from.display()))?;
    }
    let script = root().join("crates/xtask/package/life.sh");
    let mut command = Command::new("unshare");
    command.args(["--mount", "--pid", "--fork", "--kill-child", "--net", "sh"]).arg(script).arg(&system);
    shell::run(&mut command)?;
    std::fs::remove_dir_all(&system).map_err(|e| format!("{}: {e}", system.display()))
}

/// The small system, made once.
fn base() -> Result<PathBuf, String> {
    let base = root().join("target").join("xtask").join(format!("base-{RELEASE}"));
    if base.join("made").exists() {
        return Ok(base);
    }
    let _ = std::fs::remove_dir_all(&base);
    std::fs::create_dir_all(&base).map_err(|e| format!("{}: {e}", base.display()))?;
    let mut command = Command::new("debootstrap");
    command.args(["--variant=minbase", "--include=adduser", RELEASE]).arg(&base);
    // From where this machine has its packages, too.
    let mirror = shell::said(Command::new("apt-get").args(["indextargets", "--format", "$(REPO_URI)"]))?;
    command.args(mirror.lines().find(|line| !line.contains("security")));
    shell::run(&mut command)?;
    std::fs::write(base.join("made"), "").map_err(|e| e.to_string())?;
    Ok(base)
}
