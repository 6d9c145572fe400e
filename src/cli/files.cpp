#include "src/cli/files.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <istream>
#include <iterator>
#include <ostream>

namespace boxproof::cli {
namespace {

[[noreturn]] void unreadable(const std::string& path, std::string message) {
  throw InputError({{path, 0, 0, "", std::move(message)}}, 1);
}

std::string reason() {
  return std::strerror(errno);
}

// Closes what it opened.
struct Descriptor {
  int fd;
  ~Descriptor() {
    if (fd >= 0) close(fd);
  }
};

}  // namespace

Document read_file(const std::string& path, std::istream& in) {
  if (path == "-")
    return {std::string(shown_path(path)), std::string(std::istreambuf_iterator<char>(in), {})};
  const Descriptor file{open(path.c_str(), O_RDONLY | O_CLOEXEC)};
  if (file.fd < 0)
    unreadable(path, fmt::format("cannot be read ({}); expected a file that can; check the path", reason()));
  struct stat status {};
  if (fstat(file.fd, &status) != 0) unreadable(path, fmt::format("cannot be read ({})", reason()));
  if (S_ISDIR(status.st_mode))
    unreadable(path, "found a directory, expected a file; name the JSON file in it");
  Document document{path, {}};
  constexpr std::size_t piece = 1U << 16;  // bytes, for what has no size of its own (a pipe)
  std::size_t have = 0;
  document.text.resize(S_ISREG(status.st_mode) ? static_cast<std::size_t>(status.st_size) + 1 : piece);
  while (true) {
    if (have == document.text.size()) document.text.resize(have * 2);
    const ssize_t got = ::read(file.fd, document.text.data() + have, document.text.size() - have);
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) unreadable(path, fmt::format("cannot be read to its end ({})", reason()));
    if (got == 0) break;
    have += static_cast<std::size_t>(got);
  }
  document.text.resize(have);
  return document;
}

bool same_file(const std::string& one, const std::string& other) {
  struct stat a {
  }, b{};
  return stat(one.c_str(), &a) == 0 && stat(other.c_str(), &b) == 0 && S_ISREG(a.st_mode) &&
         a.st_dev == b.st_dev && a.st_ino == b.st_ino;
}

Target::Target(const std::string& path, std::ostream& out) : out_(out), path_(path) {
  if (path_.empty()) return;
  struct stat status {};
  const bool exists = stat(path_.c_str(), &status) == 0;
  if (exists && S_ISDIR(status.st_mode))
    throw CannotWrite(fmt::format("cannot write {}: it is a directory; name a file", path_));
  if (exists && !S_ISREG(status.st_mode)) {  // a device or a pipe is written to, not replaced
    file_ = open(path_.c_str(), O_WRONLY | O_CLOEXEC);
  } else {
    temporary_ = path_ + fmt::format(".{}.part", getpid());
    constexpr mode_t for_all = 0666;  // less what the umask takes
    file_ = open(temporary_.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, for_all);
  }
  if (file_ < 0) {
    temporary_.clear();
    fail(reason());
  }
}

Target::~Target() {
  if (file_ >= 0) close(file_);
  if (!temporary_.empty()) unlink(temporary_.c_str());
}

void Target::fail(const std::string& what) const {
  throw CannotWrite(
      fmt::format("cannot write {}: {}; nothing was kept", path_.empty() ? "standard output" : path_, what));
}

void Target::write(std::string_view text) {
  if (file_ < 0) {
    if (!out_.write(text.data(), static_cast<std::streamsize>(text.size())))
      fail("the output was closed or is full");
    return;
  }
  while (!text.empty()) {
    const ssize_t put = ::write(file_, text.data(), text.size());
    if (put < 0 && errno == EINTR) continue;
    if (put < 0) fail(reason());
    text.remove_prefix(static_cast<std::size_t>(put));
  }
}

void Target::finish() {
  if (file_ < 0) {
    if (!out_.flush()) fail("the output was closed or is full");
    return;
  }
  const int file = file_;
  file_ = -1;
  if (close(file) != 0) fail(reason());
  if (temporary_.empty()) return;
  if (std::rename(temporary_.c_str(), path_.c_str()) != 0) fail(reason());
  temporary_.clear();
}

}  // namespace boxproof::cli
