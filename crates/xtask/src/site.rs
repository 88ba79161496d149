//! A folder as a static web site: which file answers which path, and what kind of file it is.
//!
//! Just enough of HTTP for a browser on this machine: GET and HEAD, one answer for each connection.
//! Never answers from outside of the folder, lists no folders, changes nothing.

use std::{
    fs::{self, File},
    io::{self, BufRead, BufReader, Read, Write},
    net::{Ipv4Addr, TcpListener, TcpStream},
    path::{Component, Path, PathBuf},
    sync::Arc,
    thread,
    time::Duration,
};

use anyhow::{Context, Result};

/// Browsers open connections ahead of need; one that asks nothing is dropped after this.
const PATIENCE: Duration = Duration::from_secs(60);
const LONGEST_REQUEST: u64 = 64 * 1024;

/// Listens on this machine only: other machines can't reach it, and browsers treat it as secure.
pub(crate) fn listen(port: u16) -> Result<(TcpListener, u16)> {
    let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, port))
        .with_context(|| format!("can't listen on port {port}"))?;
    let port = listener.local_addr()?.port();
    Ok((listener, port))
}

/// Serves `folder` on `listener` until the process ends.
pub(crate) fn serve(listener: &TcpListener, folder: &Path) -> Result<()> {
    let folder = folder
        .canonicalize()
        .with_context(|| format!("can't serve {}", folder.display()))?;
    let folder: Arc<Path> = folder.into();
    for connection in listener.incoming() {
        let (connection, folder) = (connection?, Arc::clone(&folder));
        // A browser that hangs up is nobody's fault, so the outcome is dropped.
        thread::spawn(move || drop(answer(&connection, &folder)));
    }
    Ok(())
}

fn answer(mut connection: &TcpStream, folder: &Path) -> io::Result<()> {
    connection.set_read_timeout(Some(PATIENCE))?;
    let Some(request) = request_line(connection)? else {
        return Ok(());
    };
    let mut words = request.split(' ');
    let (method, url) = (
        words.next().unwrap_or_default(),
        words.next().unwrap_or_default(),
    );
    if !matches!(method, "GET" | "HEAD") {
        return head(connection, "405 Method Not Allowed", "text/plain", 0);
    }
    let Some(path) = file_for(folder, url) else {
        return head(connection, "404 Not Found", "text/plain", 0);
    };
    let mut file = File::open(&path)?;
    let length = fs::metadata(&path)?.len();
    head(connection, "200 OK", kind_of(&path), length)?;
    if method == "GET" {
        io::copy(&mut file, &mut connection)?;
    }
    Ok(())
}

/// The first line of a request, with the rest of its head read away; `None` if nothing was asked.
fn request_line(connection: &TcpStream) -> io::Result<Option<String>> {
    let mut lines = BufReader::new(connection.take(LONGEST_REQUEST)).lines();
    let first = lines.next().transpose()?;
    for line in lines {
        if line?.is_empty() {
            return Ok(first);
        }
    }
    Ok(None)
}

fn head(mut connection: &TcpStream, status: &str, kind: &str, length: u64) -> io::Result<()> {
    let head = format!(
        "HTTP/1.1 {status}\r\nContent-Type: {kind}\r\nContent-Length: {length}\r\n\
         Cache-Control: no-cache\r\nConnection: close\r\n\r\n"
    );
    connection.write_all(head.as_bytes())
}

/// The file that answers `url`, if there is one inside of `folder` (which is canonical).
fn file_for(folder: &Path, url: &str) -> Option<PathBuf> {
    let path = url.split(['?', '#']).next()?;
    let path = percent_decoded(path)?;
    let relative = Path::new(path.strip_prefix('/')?);
    if !relative
        .components()
        .all(|part| matches!(part, Component::Normal(_)))
    {
        return None;
    }
    let mut file = folder.join(relative).canonicalize().ok()?;
    if file.is_dir() && (path.ends_with('/')) {
        file = file.join("index.html").canonicalize().ok()?;
    }
    // A symlink may lead out of the folder even where the path does not.
    (file.starts_with(folder) && file.is_file()).then_some(file)
}

fn percent_decoded(path: &str) -> Option<String> {
    let mut bytes = Vec::with_capacity(path.len());
    let mut rest = path.bytes();
    while let Some(byte) = rest.next() {
        let byte = match byte {
            b'%' => {
                let digits = [rest.next()?, rest.next()?];
                u8::from_str_radix(std::str::from_utf8(&digits).ok()?, 16).ok()?
            }
            byte => byte,
        };
        bytes.push(byte);
    }
    let path = String::from_utf8(bytes).ok()?;
    (!path.contains(['\\', '\0'])).then_some(path)
}

fn kind_of(file: &Path) -> &'static str {
    match file.extension().and_then(|ending| ending.to_str()) {
        Some("html") => "text/html; charset=utf-8",
        Some("js") => "text/javascript; charset=utf-8",
        Some("css") => "text/css; charset=utf-8",
        Some("wasm") => "application/wasm",
        Some("json") => "application/json",
        Some("webmanifest") => "application/manifest+json",
        Some("svg") => "image/svg+xml",
        Some("png") => "image/png",
        Some("woff2") => "font/woff2",
        Some("txt") => "text/plain; charset=utf-8",
        _ => "application/octet-stream",
    }
}

#[cfg(test)]
mod tests {
    use xshell::Shell;

    use super::*;

    fn folder() -> (xshell::TempDir, PathBuf) {
        let sh = Shell::new().unwrap();
        let dir = sh.create_temp_dir().unwrap();
        sh.change_dir(dir.path());
        sh.write_file("secret.txt", "outside").unwrap();
        sh.write_file("site/index.html", "<!doctype html>").unwrap();
        sh.write_file("site/app.wasm", "\0asm").unwrap();
        sh.write_file("site/words/en.json", "{}").unwrap();
        let site = dir.path().join("site").canonicalize().unwrap();
        (dir, site)
    }

    #[test]
    fn paths_lead_to_files_inside_only() {
        let (_dir, site) = folder();
        let name = |url: &str| {
            file_for(&site, url).map(|file| file.strip_prefix(&site).unwrap().display().to_string())
        };
        assert_eq!(name("/").as_deref(), Some("index.html"));
        assert_eq!(name("/?from=home#x").as_deref(), Some("index.html"));
        assert_eq!(name("/words/en.json").as_deref(), Some("words/en.json"));
        assert_eq!(name("/words/%65n.json").as_deref(), Some("words/en.json"));
        for outside in [
            "/words",
            "/words/",
            "/none",
            "",
            "index.html",
            "/../secret.txt",
            "/%2e%2e/secret.txt",
            "/words/../../secret.txt",
            "/..%5csecret.txt",
            "//secret.txt/",
            "/%00",
            "/%zz",
            "/%2",
        ] {
            assert_eq!(name(outside), None, "{outside}");
        }
    }

    #[cfg(unix)]
    #[test]
    fn a_symlink_out_of_the_folder_is_not_followed() {
        let (dir, site) = folder();
        std::os::unix::fs::symlink(dir.path().join("secret.txt"), site.join("link.txt")).unwrap();
        assert_eq!(file_for(&site, "/link.txt"), None);
    }

    #[test]
    fn answers_carry_kind_and_no_cache() {
        let (_dir, site) = folder();
        let (listener, port) = listen(0).unwrap();
        thread::spawn(move || serve(&listener, &site));
        // Idle connections, as a browser opens them ahead of need, must not keep others waiting.
        let _idle: Vec<_> = (0..20)
            .map(|_| TcpStream::connect(("127.0.0.1", port)).unwrap())
            .collect();
        let get = |line: &str| {
            let mut stream = TcpStream::connect(("127.0.0.1", port)).unwrap();
            write!(
                stream,
                "{line} HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n"
            )
            .unwrap();
            let mut answer = String::new();
            stream.read_to_string(&mut answer).unwrap();
            answer
        };
        let wasm = get("GET /app.wasm");
        assert!(wasm.starts_with("HTTP/1.1 200"), "{wasm}");
        assert!(
            wasm.contains("Content-Type: application/wasm\r\n"),
            "{wasm}"
        );
        assert!(wasm.contains("Cache-Control: no-cache\r\n"), "{wasm}");
        assert!(wasm.ends_with("\0asm"), "{wasm}");
        let head = get("HEAD /app.wasm");
        assert!(
            head.contains("Content-Length: 4\r\n") && head.ends_with("\r\n\r\n"),
            "{head}"
        );
        assert!(get("GET /gone").starts_with("HTTP/1.1 404"));
        assert!(get("GET /../secret.txt").starts_with("HTTP/1.1 404"));
        assert!(get("POST /").starts_with("HTTP/1.1 405"));
    }
}
