//! `cargo xtask host`: serves a folder and nothing else. The browser tests start it as a child process.

use std::{
    io::{Write, stdout},
    path::PathBuf,
};

use anyhow::{Context, Result};

use crate::{args::Args, site};

/// Prints one line, `listening http://localhost:PORT`, once requests are answered.
pub(crate) fn run(mut args: Args) -> Result<()> {
    let folder: PathBuf = args.option("--dir")?.context("host needs --dir")?;
    let port = args.option("--port")?.unwrap_or(0);
    args.finish()?;
    let (listener, port) = site::listen(port)?;
    println!("listening http://localhost:{port}");
    stdout().flush()?;
    site::serve(&listener, &folder)
}
