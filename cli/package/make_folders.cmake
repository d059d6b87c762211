# SPDX-License-Identifier: GPL-3.0-or-later
# Run when the project is installed. The FOLDERS below the prefix that are not there yet are made for everyone to read: left to CMake, they have
# what the mask of who installs leaves. Those that are there stay as they are.
foreach(folder IN LISTS FOLDERS)
  set(path ${CMAKE_INSTALL_PREFIX})
  cmake_path(APPEND path ${folder})
  get_filename_component(path "$ENV{DESTDIR}${path}" ABSOLUTE)
  set(missing "")
  while(NOT EXISTS "${path}")
    list(PREPEND missing "${path}")
    cmake_path(GET path PARENT_PATH path)
  endwhile()
  foreach(new IN LISTS missing)
    file(MAKE_DIRECTORY "${new}")
    file(CHMOD "${new}" DIRECTORY_PERMISSIONS OWNER_READ OWNER_WRITE OWNER_EXECUTE GROUP_READ GROUP_EXECUTE WORLD_READ WORLD_EXECUTE)
  endforeach()
endforeach()
