#!/usr/bin/env bash
# Makes stand-ins for the container images this project names, for machines that reach Debian's archive but no image registry:
#   postgres:17                          Debian 13 with its postgresql-17, started the way the official image is
#   mcr.microsoft.com/dotnet/sdk:10.0    Debian 12 with this machine's own .NET SDK
#   mcr.microsoft.com/dotnet/aspnet:10.0 the same without the SDK
# An image that is already there is left alone. Where a registry answers, use `docker pull` and not this.
#
#   bash deploy/dev/standin-images.sh              all three
#   bash deploy/dev/standin-images.sh postgres     only PostgreSQL (what the container tests need)
set -euo pipefail

here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
mirror=${DEBIAN_MIRROR:-http://deb.debian.org/debian}
sdk_image=mcr.microsoft.com/dotnet/sdk:10.0
aspnet_image=mcr.microsoft.com/dotnet/aspnet:10.0

fail() { echo "standin-images.sh: $*" >&2; exit 1; }
missing() { ! docker image inspect "$1" >/dev/null 2>&1; }

[ "$(id -u)" = 0 ] || fail "debootstrap needs root"
docker info >/dev/null 2>&1 || fail "no Docker daemon answers (Debian: apt-get install docker.io, then start dockerd)"
command -v debootstrap >/dev/null || fail "debootstrap is missing (apt-get install debootstrap)"

work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

debian() { # suite packages directory
  debootstrap --variant=minbase --include="$2" "$1" "$3" "$mirror" >"$work/debootstrap.log" 2>&1 ||
    { tail -20 "$work/debootstrap.log" >&2; fail "debootstrap of $1 failed"; }
  rm -rf "$3"/var/cache/apt/archives/*.deb "$3"/var/lib/apt/lists/*
}

postgres() {
  missing postgres:17 || { echo "postgres:17 is already there"; return; }
  local root=$work/postgres
  debian trixie postgresql-17,gosu,ca-certificates,tzdata "$root"
  # Debian's package makes a cluster of its own, which the image has no use for.
  rm -rf "$root"/var/lib/postgresql/17 "$root"/etc/postgresql/17
  install -m 755 "$here/standin-postgres-entrypoint.sh" "$root/usr/local/bin/docker-entrypoint.sh"
  tar -C "$root" -c . | docker import \
    --change 'ENV PATH=/usr/local/sbin:/usr/local/bin:/usr/sbin:/usr/bin:/sbin:/bin:/usr/lib/postgresql/17/bin' \
    --change 'ENV PGDATA=/var/lib/postgresql/data' --change 'VOLUME /var/lib/postgresql/data' --change 'EXPOSE 5432' \
    --change 'ENTRYPOINT ["docker-entrypoint.sh"]' --change 'CMD ["postgres"]' \
    - postgres:17 >/dev/null
  # An import cannot carry the stop signal, and a server asked by SIGTERM waits for its clients.
  docker build --quiet --tag postgres:17 - >/dev/null <<<$'FROM postgres:17\nSTOPSIGNAL SIGINT'
  rm -rf "$root"
  echo "postgres:17 made"
}

dotnet_images() {
  missing $sdk_image || missing $aspnet_image || { echo "the .NET images are already there"; return; }
  local dotnet root=$work/dotnet
  dotnet=$(dirname "$(readlink -f "$(command -v dotnet)")")
  debian bookworm ca-certificates,libicu72,libssl3,libgssapi-krb5-2,zlib1g,tzdata "$root"
  # What this machine trusts, the image trusts: package sources may sit behind a proxy with a certificate of its own.
  cp -L /etc/ssl/certs/ca-certificates.crt "$root/etc/ssl/certs/ca-certificates.crt"
  chroot "$root" groupadd --gid 1654 app
  chroot "$root" useradd --uid 1654 --gid 1654 --create-home --shell /bin/false app
  ln -s /usr/share/dotnet/dotnet "$root/usr/bin/dotnet"
  mkdir -p "$root/usr/share/dotnet"
  local settings=(--change 'ENV APP_UID=1654' --change 'ENV ASPNETCORE_HTTP_PORTS=8080' --change 'ENV DOTNET_RUNNING_IN_CONTAINER=true')
  cp -a "$dotnet/dotnet" "$dotnet/host" "$dotnet/shared" "$root/usr/share/dotnet/"
  tar -C "$root" -c . | docker import "${settings[@]}" - $aspnet_image >/dev/null
  cp -a "$dotnet/." "$root/usr/share/dotnet/"
  tar -C "$root" -c . | docker import "${settings[@]}" --change 'ENV DOTNET_CLI_TELEMETRY_OPTOUT=1' --change 'ENV DOTNET_NOLOGO=true' \
    --change "ENV NUGET_CERT_REVOCATION_MODE=${NUGET_CERT_REVOCATION_MODE:-online}" --change 'CMD ["bash"]' - $sdk_image >/dev/null
  rm -rf "$root"
  echo "$sdk_image and $aspnet_image made"
}

case ${1:-all} in
  postgres) postgres ;;
  dotnet) dotnet_images ;;
  all) postgres; dotnet_images ;;
  *) fail "unknown image set '$1'; known: postgres, dotnet, all" ;;
esac
