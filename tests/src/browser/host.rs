//! The static host of the built app, as a child process that can be stopped for good.

use std::{
    io::{BufRead, BufReader},
    path::Path,
    process::{Child, Command, Stdio},
};

use super::told;

/// `cargo xtask host` with a folder, on a port of its own.
pub struct Host {
    child: Option<Child>,
    folder: std::path::PathBuf,
    port: u16,
}

impl Host {
    pub fn start(folder: &Path) -> Self {
        let mut host = Self {
            child: None,
            folder: folder.to_owned(),
            port: 0,
        };
        host.start_again();
        host
    }

    /// Starts it on the port that it had, so that its address stays.
    pub fn start_again(&mut self) {
        self.stop();
        let mut child = Command::new(told("CHOCK_XTASK"))
            .arg("host")
            .arg("--dir")
            .arg(&self.folder)
            .args(["--port", &self.port.to_string()])
            .stdout(Stdio::piped())
            .spawn()
            .expect("xtask can be started");
        let mut line = String::new();
        let mut said = BufReader::new(child.stdout.take().expect("its output is ours"));
        said.read_line(&mut line).expect("its output can be read");
        self.child = Some(child);
        let port = line
            .trim()
            .rsplit(':')
            .next()
            .and_then(|port| port.parse().ok());
        self.port = port.unwrap_or_else(|| panic!("the host said {line:?}"));
    }

    pub fn address(&self) -> String {
        format!("http://localhost:{}/", self.port)
    }

    /// Ends the process: from here on the address answers nobody.
    pub fn stop(&mut self) {
        if let Some(mut child) = self.child.take() {
            child.kill().expect("the host can be ended");
            child.wait().expect("the host has ended");
            let gone = std::net::TcpStream::connect(("localhost", self.port)).is_err();
            assert!(gone, "the host still answers after it was ended");
        }
    }
}

impl Drop for Host {
    fn drop(&mut self) {
        if let Some(mut child) = self.child.take() {
            // Nothing can be done about a process that will not end.
            let _ended = child.kill().and_then(|()| child.wait());
        }
    }
}
