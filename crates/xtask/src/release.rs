//! The release build, the same for `serve` and `test`: tools first, then Trunk, which fetches nothing.

use anyhow::{Result, ensure};
use xshell::{Shell, cmd};

use crate::{precache, project::Project, tools};

/// Leaves the built app in `target/dist`.
pub(crate) fn build(sh: &Shell, project: &Project) -> Result<()> {
    tools::ready_to_build(sh, project)?;
    let _dir = sh.push_dir(&project.root);
    let _path = tools::with_ours_first(sh, project)?;
    let _xtask = sh.push_env("CHOCK_XTASK", &project.xtask);
    cmd!(sh, "cargo fetch").run()?;
    cmd!(sh, "trunk build --release --offline").run()?;
    let worker = project.dist().join(precache::WORKER);
    ensure!(
        worker.is_file(),
        "Trunk built the app without a service worker: look at the hook in Trunk.toml"
    );
    Ok(())
}
