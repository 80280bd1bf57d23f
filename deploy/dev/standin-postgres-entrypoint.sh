#!/bin/bash
# Entry point of the stand-in image postgres:17 (standin-images.sh). Follows the official image where this project and its
# tests depend on it: POSTGRES_USER, POSTGRES_PASSWORD, POSTGRES_DB, each also as ..._FILE, PGDATA, and options after the image's name.
set -euo pipefail

if [ $# -gt 0 ] && [ "${1#-}" != "$1" ]; then set -- postgres "$@"; fi
if [ "$1" != postgres ]; then exec "$@"; fi

if [ "$(id -u)" = 0 ]; then
  mkdir -p "$PGDATA" /var/run/postgresql
  chown -R postgres:postgres "$PGDATA" /var/run/postgresql
  chmod 700 "$PGDATA"
  exec gosu postgres "$0" "$@"
fi

from_file_or() { # VARIABLE default
  local file_variable=$1_FILE
  if [ -n "${!file_variable:-}" ]; then cat "${!file_variable}"; else printf '%s' "${!1:-$2}"; fi
}

if [ ! -s "$PGDATA/PG_VERSION" ]; then
  user=$(from_file_or POSTGRES_USER postgres)
  password=$(from_file_or POSTGRES_PASSWORD '')
  database=$(from_file_or POSTGRES_DB "$user")
  [ -n "$password" ] || { echo "POSTGRES_PASSWORD is not set; a server without a password is not started." >&2; exit 1; }

  initdb --username="$user" --pwfile=<(printf '%s\n' "$password") --encoding=UTF8 --locale=C.UTF-8 \
    --auth-local=trust --auth-host=scram-sha-256
  echo 'host all all all scram-sha-256' >>"$PGDATA/pg_hba.conf"
  # The first start listens on the socket only, so that nobody finds a server that is still being set up.
  pg_ctl -w -D "$PGDATA" -o "-c listen_addresses=''" start
  if [ "$database" != postgres ]; then
    psql -v ON_ERROR_STOP=1 --username "$user" --dbname postgres --set database="$database" <<<'CREATE DATABASE :"database";'
  fi
  pg_ctl -w -D "$PGDATA" -m fast stop
fi

exec "$@" -c listen_addresses='*'
