//! What was typed after `cargo xtask`: words, and options with a value. Anything left over is refused.

use std::str::FromStr;

use anyhow::{Context, Result, bail};

pub(crate) struct Args(Vec<String>);

impl Args {
    pub(crate) fn from_command_line() -> Self {
        Self(std::env::args().skip(1).collect())
    }

    /// Takes the next word, if there is one left.
    pub(crate) fn word(&mut self) -> Option<String> {
        (!self.0.is_empty()).then(|| self.0.remove(0))
    }

    /// Takes `name VALUE` out, wherever it stands.
    pub(crate) fn option<T>(&mut self, name: &str) -> Result<Option<T>>
    where
        T: FromStr<Err: std::error::Error + Send + Sync + 'static>,
    {
        let Some(at) = self.0.iter().position(|arg| arg == name) else {
            return Ok(None);
        };
        self.0.remove(at);
        if at == self.0.len() {
            bail!("{name} needs a value");
        }
        let value = self.0.remove(at);
        let parsed = value
            .parse()
            .with_context(|| format!("can't read {name} {value}"))?;
        Ok(Some(parsed))
    }

    /// Refuses what no command asked for.
    pub(crate) fn finish(self) -> Result<()> {
        match self.0.first() {
            Some(extra) => bail!("don't know what to do with {extra:?}"),
            None => Ok(()),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::Args;

    fn typed(line: &str) -> Args {
        Args(line.split_whitespace().map(str::to_owned).collect())
    }

    #[test]
    fn options_stand_anywhere() {
        let mut args = typed("host --port 0 --dir dist");
        assert_eq!(args.word().as_deref(), Some("host"));
        assert_eq!(args.option("--dir").unwrap(), Some("dist".to_owned()));
        assert_eq!(args.option("--port").unwrap(), Some(0_u16));
        assert_eq!(args.option::<u16>("--port").unwrap(), None);
        args.finish().unwrap();
    }

    #[test]
    fn wrong_or_missing_values_and_extras_are_refused() {
        assert!(typed("--port").option::<u16>("--port").is_err());
        assert!(typed("--port ninety").option::<u16>("--port").is_err());
        assert!(typed("twice").finish().is_err());
    }
}
