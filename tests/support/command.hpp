// The command line in a process of its own making: arguments in, streams and exit status out.
#pragma once

#include <map>
#include <string>
#include <vector>

namespace boxproof::test {

struct Called {
  int status = 0;
  std::string out, err;
  bool says(std::string_view text) const { return out.find(text) != std::string::npos; }
  bool complains(std::string_view text) const { return err.find(text) != std::string::npos; }
};

struct Surroundings {
  std::string in;
  bool terminal = false;
  std::map<std::string, std::string> environment;
  std::string folder = {};  // to run in, and to look for settings from; empty: here, and no settings
};

// Runs boxproof with these arguments.
Called call(const std::vector<std::string>& arguments, const Surroundings& around = {});

// A folder that is there for one test, with files in it.
class Folder {
 public:
  Folder();
  ~Folder();
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;

  const std::string& root() const { return root_; }
  std::string path(const std::string& name) const { return root_ + "/" + name; }
  std::string put(const std::string& name, const std::string& text) const;  // returns the path
  std::string get(const std::string& name) const;
  std::vector<std::string> names() const;  // sorted

 private:
  std::string root_;
};

}  // namespace boxproof::test
