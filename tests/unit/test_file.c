#include "scratch.h"

#include "liveside/file.h"

#include <sys/resource.h>

static void reads_every_byte(void **state)
{
    (void)state;
    ls_buffer buffer = {0};
    FILE *file = fopen("bytes", "w");
    assert_non_null(file);
    for (int i = 0; i < 100000; i++) {
        fputc(i * 7 % 256, file);
    }
    fclose(file);
    assert_int_equal(ls_file_read("bytes", 100000, &buffer, NULL), LS_OK);
    assert_int_equal(buffer.size, 100000);
    for (int i = 0; i < 100000; i++) {
        assert_int_equal((unsigned char)buffer.data[i], i * 7 % 256);
    }
    assert_int_equal(buffer.data[100000], 0);
    ls_file_free(&buffer);
    assert_null(buffer.data);
    ls_file_free(&buffer);
}

static void reads_an_empty_file(void **state)
{
    (void)state;
    ls_buffer buffer = {0};
    spit("empty", "");
    assert_int_equal(ls_file_read("empty", 10, &buffer, NULL), LS_OK);
    assert_int_equal(buffer.size, 0);
    assert_string_equal(buffer.data, "");
    ls_file_free(&buffer);
    assert_int_equal(ls_file_read("empty", 0, &buffer, NULL), LS_OK);
    ls_file_free(&buffer);
}

static void check_read_fails(const char *path, size_t limit, ls_status want, const char *text)
{
    char mark;
    ls_buffer buffer = {.data = &mark, .size = 7};
    ls_error error = {0};
    assert_int_equal(ls_file_read(path, limit, &buffer, &error), want);
    assert_string_equal(error.text, text);
    assert_true(buffer.data == &mark && buffer.size == 7);
}

static void refuses_what_it_cannot_read(void **state)
{
    (void)state;
    spit("ten", "0123456789");
    assert_int_equal(mkdir("dir", 0755), 0);
    assert_int_equal(symlink("loop", "loop"), 0);
    check_read_fails("ten", 9, LS_FILE_REJECTED, "ten is too large: the limit is 9 bytes");
    check_read_fails("ten", 0, LS_FILE_REJECTED, "ten is too large: the limit is 0 bytes");
    check_read_fails("/dev/zero", 100000, LS_FILE_REJECTED, "/dev/zero is too large: the limit is 100000 bytes");
    check_read_fails("missing", 9, LS_IO, "cannot read missing: No such file or directory");
    check_read_fails("ten/x", 9, LS_IO, "cannot read ten/x: Not a directory");
    check_read_fails("dir", 9, LS_IO, "cannot read dir: it is a folder, not a file");
    check_read_fails("loop", 9, LS_IO, "cannot read loop: Too many levels of symbolic links");
    check_read_fails("", 9, LS_IO, "cannot read : No such file or directory");
    ls_buffer buffer;
    assert_int_equal(ls_file_read("ten", 10, &buffer, NULL), LS_OK);
    ls_file_free(&buffer);
}

static int read_standard_input(void)
{
    int pipe_ends[2];
    ls_buffer buffer;
    if (pipe(pipe_ends) != 0 || write(pipe_ends[1], "from a pipe", 11) != 11 || close(pipe_ends[1]) != 0 ||
        dup2(pipe_ends[0], STDIN_FILENO) < 0) {
        return 1;
    }
    if (ls_file_read("-", 100, &buffer, NULL) != LS_OK || strcmp(buffer.data, "from a pipe") != 0) {
        return 2;
    }
    ls_file_free(&buffer);
    return 0;
}

static int read_closed_standard_input(void)
{
    ls_buffer buffer;
    ls_error error = {0};
    close(STDIN_FILENO);
    return ls_file_read("-", 100, &buffer, &error) != LS_IO ||
           strcmp(error.text, "cannot read standard input: Bad file descriptor") != 0;
}

static void reads_standard_input(void **state)
{
    (void)state;
    assert_int_equal(in_child(read_standard_input), 0);
    assert_int_equal(in_child(read_closed_standard_input), 0);
}

static int read_a_private_file(void)
{
    ls_buffer buffer;
    ls_error error = {0};
    if (!become_ordinary_user()) {
        return SKIPPED;
    }
    return ls_file_read("private", 100, &buffer, &error) != LS_IO ||
           strcmp(error.text, "cannot read private: Permission denied") != 0;
}

static void refuses_a_private_file(void **state)
{
    (void)state;
    spit("private", "secret");
    assert_int_equal(chmod("private", 0), 0);
    assert_child_passed(in_child(read_a_private_file));
}

/* Address sanitizers and valgrind need more address space than the test below leaves. */
static int is_memory_watched(void)
{
#ifdef __SANITIZE_ADDRESS__
    return 1;
#else
    const char *preloaded = getenv("LD_PRELOAD");
    return preloaded != NULL && strstr(preloaded, "valgrind") != NULL;
#endif
}

/* Endless input and little memory. */
static int read_with_little_memory(void)
{
    struct rlimit limit = {64 << 20, 64 << 20};
    ls_buffer buffer = {.size = 7};
    ls_error error = {0};
    if (setrlimit(RLIMIT_AS, &limit) != 0) {
        return 1;
    }
    return ls_file_read("/dev/zero", (size_t)-1, &buffer, &error) != LS_MEMORY || buffer.size != 7 ||
           strcmp(error.text, "out of memory while reading /dev/zero") != 0;
}

static void running_out_of_memory_is_told(void **state)
{
    (void)state;
    if (is_memory_watched()) {
        skip();
    }
    assert_int_equal(in_child(read_with_little_memory), 0);
}

static void hashes_are_those_of_the_standard(void **state)
{
    (void)state;
    char hex[LS_SHA256_TEXT];
    ls_file_sha256("abc", 3, hex);
    assert_string_equal(hex, "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"); /* FIPS 180 */
    ls_file_sha256("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq", 56, hex);
    assert_string_equal(hex, "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1"); /* FIPS 180 */
    ls_file_sha256("", 0, hex);
    assert_string_equal(hex, "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"); /* NIST CAVP */
    ls_file_sha256(NULL, 0, hex);
    assert_string_equal(hex, "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        IN_FOLDER(reads_every_byte),
        IN_FOLDER(reads_an_empty_file),
        IN_FOLDER(refuses_what_it_cannot_read),
        IN_FOLDER(reads_standard_input),
        IN_FOLDER(refuses_a_private_file),
        IN_FOLDER(running_out_of_memory_is_told),
        IN_FOLDER(hashes_are_those_of_the_standard),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
