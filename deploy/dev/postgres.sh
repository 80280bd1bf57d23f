#!/usr/bin/env bash
# A private, throw-away PostgreSQL server for tests and benchmarks: its own directory, a free port on 127.0.0.1, a password of its own.
#
#   source deploy/dev/postgres.sh; postgres_start; trap postgres_stop EXIT      connection string in $postgres_connection
#   postgres_start --durable            fsync on, as a real server has it: for what is measured
#   bash deploy/dev/postgres.sh hold    prints the connection string, then lives until its standard input closes; so the server
#                                       ends with the program that holds it, however that program ends
#
# For tests nothing is synced to the disk: each test makes and drops a database, which waits for a checkpoint, and with fsync took most of the
# time. The tests that kill a process kill the program, never the server: what the server has answered it still has.

postgres_directory=
postgres_bin=
postgres_connection=

postgres_find() {
  local candidate
  for candidate in $(printf '%s\n' /usr/lib/postgresql/*/bin | sort -rV) "$(dirname "$(command -v initdb || echo /nowhere/initdb)")"; do
    if [ -x "$candidate/initdb" ]; then postgres_bin=$candidate; return 0; fi
  done
  echo "PostgreSQL is not installed: no initdb below /usr/lib/postgresql nor in PATH (Debian: apt-get install postgresql)." >&2
  return 1
}

# The server refuses to run as root; Debian's package brings the user postgres.
postgres_run() {
  if [ "$(id -u)" = 0 ]; then (cd / && exec runuser -u postgres -- "$@"); else "$@"; fi
}

postgres_free_port() {
  local port
  while :; do
    port=$((20000 + RANDOM % 12000))
    (exec 3<>"/dev/tcp/127.0.0.1/$port") 2>/dev/null || { echo "$port"; return; }
  done
}

postgres_start() {
  local password port parent=${TMPDIR:-/tmp} options="-c fsync=on"
  if [ "${1:-}" != --durable ]; then
    options="-c fsync=off -c full_page_writes=off -c max_wal_size=256MB"
    # A database is some thousand small files: in memory they are made in a fifth of the time.
    if [ "$(df --output=avail -k /dev/shm 2>/dev/null | tail -n 1)" -ge $((4 * 1024 * 1024)) ] 2>/dev/null; then parent=/dev/shm; fi
  fi
  postgres_find || return 1
  postgres_directory=$(mktemp -d "$parent/shopfluids-postgres.XXXXXX")
  password=$(od -An -tx1 -N16 /dev/urandom | tr -d ' \n')
  printf '%s\n' "$password" >"$postgres_directory/password"
  if [ "$(id -u)" = 0 ]; then chown -R postgres: "$postgres_directory"; fi

  postgres_run "$postgres_bin/initdb" --pgdata="$postgres_directory/data" --username=postgres --pwfile="$postgres_directory/password" \
    --auth=scram-sha-256 --encoding=UTF8 --locale=C.UTF-8 --no-sync >"$postgres_directory/initdb.log" 2>&1 ||
    { cat "$postgres_directory/initdb.log" >&2; postgres_stop; return 1; }

  # Another program may take the port between the look and the start; then the next one is tried.
  for _ in 1 2 3; do
    port=$(postgres_free_port)
    if postgres_run "$postgres_bin/pg_ctl" --pgdata="$postgres_directory/data" --log="$postgres_directory/data/server.log" --wait \
      --options="-c listen_addresses=127.0.0.1 -c port=$port -c unix_socket_directories=$postgres_directory -c max_connections=300 -c shared_buffers=256MB $options" \
      start >"$postgres_directory/start.log" 2>&1 </dev/null; then
      postgres_connection="Host=127.0.0.1;Port=$port;Username=postgres;Password=$password;Database=postgres"
      return 0
    fi
  done
  echo "The private PostgreSQL server did not start:" >&2
  cat "$postgres_directory/start.log" "$postgres_directory/data/server.log" >&2
  postgres_stop
  return 1
}

# Immediate: nothing in it is kept, so nothing needs to be written out.
postgres_stop() {
  [ -n "$postgres_directory" ] || return 0
  if [ -f "$postgres_directory/data/postmaster.pid" ]; then
    postgres_run "$postgres_bin/pg_ctl" --pgdata="$postgres_directory/data" --mode=immediate --wait stop >/dev/null 2>&1 ||
      echo "The private PostgreSQL server in $postgres_directory did not stop." >&2
  fi
  rm -rf "$postgres_directory"
  postgres_directory=
}

if [ "${BASH_SOURCE[0]}" = "$0" ]; then
  set -euo pipefail
  [ "${1:-}" = hold ] || { echo "usage: postgres.sh hold" >&2; exit 2; }
  trap postgres_stop EXIT
  trap 'exit 130' INT TERM HUP
  postgres_start
  echo "$postgres_connection"
  while read -r _; do :; done
fi
