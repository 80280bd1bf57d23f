#!/usr/bin/env bash
# Sourced: installs the Debian packages that the named work needs and that are missing. `packages_install postgresql chromium ...`

packages_missing() {
  local package
  for package in "$@"; do
    dpkg-query --show --showformat='${db:Status-Status}' "$package" 2>/dev/null | grep -qx installed || echo "$package"
  done
}

# The package's name carries the release of ICU, so it is looked for by library first.
packages_icu() {
  local package
  # In /usr/sbin, which an ordinary user's PATH does not name.
  PATH=$PATH:/usr/sbin:/sbin ldconfig -p 2>/dev/null | grep 'libicuuc\.so' >/dev/null && return
  package=$(apt-cache search --names-only '^libicu[0-9]+$' 2>/dev/null | awk '{ print $1 }' | sort -V | tail -n 1)
  # Nothing found: the package lists were never fetched. A name that cannot be installed makes the caller fetch them.
  echo "${package:-libicu}"
}

packages_install() {
  command -v dpkg-query >/dev/null || { echo "Not Debian: needed are $*; taken as present." >&2; return 0; }
  local missing
  mapfile -t missing < <(packages_missing "$@"; packages_icu)
  [ ${#missing[@]} -gt 0 ] || return 0
  if [ "$(id -u)" != 0 ]; then
    echo "Missing Debian packages, and only root can install them: apt-get install ${missing[*]}" >&2
    return 1
  fi
  echo "Installing ${missing[*]}"
  local install=(apt-get install --yes --quiet=2 --no-install-recommends)
  export DEBIAN_FRONTEND=noninteractive
  # A machine that never fetched the package lists, or whose lists are old, fails the first time.
  if ! "${install[@]}" "${missing[@]}" >/dev/null 2>&1; then
    apt-get update --quiet=2 && mapfile -t missing < <(packages_missing "$@"; packages_icu) && "${install[@]}" "${missing[@]}" >/dev/null
  fi
}
