//! `cargo xtask serve`: from a fresh checkout to the app in a browser on this machine.

use std::net::TcpListener;

use anyhow::Result;
use xshell::Shell;

use crate::{args::Args, project::Project, release, site};

const FIRST_PORT: u16 = 8080;
const PORTS_TRIED: u16 = 50;

pub(crate) fn run(sh: &Shell, project: &Project, mut args: Args) -> Result<()> {
    let wanted = args.option("--port")?.unwrap_or(FIRST_PORT);
    args.finish()?;
    release::build(sh, project)?;
    let (listener, port) = listen_from(wanted)?;
    println!("\nChock to Chock is at http://localhost:{port} (Ctrl-C ends it)");
    site::serve(&listener, &project.dist())
}

/// Takes the wanted port, or the next free one.
fn listen_from(wanted: u16) -> Result<(TcpListener, u16)> {
    let mut tried = site::listen(wanted);
    for port in (wanted..=u16::MAX).skip(1).take(PORTS_TRIED.into()) {
        match tried {
            Ok(found) => return Ok(found),
            Err(_) => tried = site::listen(port),
        }
    }
    tried
}

#[cfg(test)]
mod tests {
    use super::listen_from;

    #[test]
    fn a_taken_port_leads_to_a_later_one() {
        let (_first, taken) = listen_from(0).unwrap();
        let (_second, found) = listen_from(taken).unwrap();
        assert!(taken < found, "{taken} < {found}");
    }
}
